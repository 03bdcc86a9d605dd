import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import { applied, changedKeys, inLines, meet, namedLists, sameValue, tidy } from "../../hooks/site/static/js/changes.js";

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
  const clash = { key: "said", stored: "theirs", yours: "mine" };
  assert.deepEqual(meet(STORED, stored, { said: "mine", why: ["mine"] }, {}), { changes: { why: ["mine"] }, clashing: [clash] });
  assert.deepEqual(meet(STORED, stored, { said: "theirs" }, {}), { changes: {}, clashing: [] });
  assert.deepEqual(meet(STORED, { ...STORED, why: undefined }, { why: null }, {}), { changes: {}, clashing: [] });
});

/** @param {string} lesson @param {string} answer */
const line = (lesson, answer) => ({ lesson, answer });
const BY = { held: "lesson" };

for (const { about, was, stored, mine, left, clashing } of JSON.parse(readFileSync(new URL("meet.json", import.meta.url), "utf8"))) {
  test(`an edit meets what was stored, as in the program: ${about}`, () => {
    const met = meet(was, stored, mine, BY);
    assert.deepEqual([met.changes, met.clashing.map(({ key }) => key)], [left, clashing]);
  });
}

test("a list of named lines meets line by line: added, changed, taken away on either side", () => {
  const was = { held: [line("a", "held"), line("b", "held"), line("c", "held")] };
  const stored = { held: [line("a", "not_met"), line("b", "held"), line("d", "held")] };
  const mine = { held: [line("a", "held"), line("c", "held"), line("e", "held")] };
  const both = { held: [line("a", "not_met"), line("d", "held"), line("e", "held")] };
  assert.deepEqual(meet(was, stored, mine, BY), { changes: both, clashing: [] });
  assert.deepEqual(meet(was, both, mine, BY), { changes: {}, clashing: [] });
  assert.deepEqual(meet({}, { held: [line("a", "held")] }, { held: [line("b", "held")] }, BY).changes.held.length, 2);
});

test("one line that both changed clashes, and either choice keeps the other lines of both", () => {
  const stored = { held: [line("a", "held"), line("b", "held")] };
  const { changes, clashing } = meet({}, stored, { held: [line("a", "not_met"), line("c", "held")] }, BY);
  assert.deepEqual(changes, {});
  assert.deepEqual(clashing, [{
    key: "held",
    stored: [line("a", "held"), line("b", "held"), line("c", "held")],
    yours: [line("a", "not_met"), line("b", "held"), line("c", "held")],
  }]);
});

test("lines without names of their own meet as a whole", () => {
  const two = { held: [line("a", "held"), line("a", "not_met")] };
  assert.equal(meet({}, two, { held: [line("b", "held")] }, BY).clashing.length, 1);
  assert.equal(meet({}, { held: [line("a", "held")] }, { held: [line("b", "held")] }, {}).clashing.length, 1);
});

test("the declaration says which lists have named lines", () => {
  assert.deepEqual(namedLists([{ key: "held", by: "lesson" }, { key: "why", by: "" }, { key: "said" }]), BY);
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
