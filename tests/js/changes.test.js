import assert from "node:assert/strict";
import test from "node:test";
import { applied, changedKeys, changesTo, clashes, inLines, sameValue, tidy } from "../../hooks/site/static/js/changes.js";

const STORED = { kind: "crash", said: "hit the vice", why: ["no dry run"], cutter: { teeth: "3", cutter_diameter: "8 mm" } };

test("only keys whose meaning changed are sent", () => {
  const now = { ...STORED, said: " hit the vice ", cutter: { cutter_diameter: "8 mm", teeth: "3", holder: "" } };
  assert.deepEqual(changedKeys(STORED, now), {});
  assert.deepEqual(changedKeys(STORED, { ...now, said: "hit the stop" }), { said: "hit the stop" });
});

test("an emptied key is taken away with null, and a key never there is not", () => {
  assert.deepEqual(changedKeys(STORED, { why: ["", " "], title: "", changes: [{ what: "" }] }), { why: null });
});

test("the order of a list matters and the order of a group does not", () => {
  assert.equal(sameValue(["a", "b"], ["b", "a"]), false);
  assert.equal(sameValue({ a: "1", b: "2" }, { b: "2", a: "1" }), true);
});

test("applied changes give what the server stores", () => {
  assert.deepEqual(applied(STORED, { why: null, said: "new" }), { kind: "crash", said: "new", cutter: STORED.cutter });
});

test("two edits clash only where both changed one key to different things", () => {
  const stored = { ...STORED, said: "theirs", kind: "wrong_size" };
  assert.deepEqual(clashes(STORED, stored, { said: "mine" }), ["said"]);
  assert.deepEqual(clashes(STORED, stored, { why: ["mine"] }), []);
  assert.deepEqual(clashes(STORED, stored, { said: "theirs" }), []);
});

test("a value is told in lines a person can compare", () => {
  assert.equal(inLines(["a", "b"]), "a\nb");
  assert.equal(inLines({ cutter_diameter: "8 mm", teeth: "3" }), "cutter diameter: 8 mm\nteeth: 3");
  assert.equal(inLines(""), "nothing");
});

test("tidy leaves no empty thing at any depth", () => {
  assert.equal(tidy({ a: [""], b: { c: "  " } }), null);
  assert.deepEqual(tidy([{ what: " x ", done_on: "" }, {}]), [{ what: "x" }]);
});

test("what was stored and is not there any more is taken away, its id never", () => {
  const { why: _, ...rest } = STORED;
  assert.deepEqual(changesTo({ id: "1", ...STORED }, rest), { why: null });
});
