import assert from "node:assert/strict";
import test from "node:test";
import { commandLine } from "../../hooks/site/static/js/away.js";
import { checkOf } from "../../hooks/site/static/js/attach.js";
import { openQuestions } from "../../hooks/site/static/js/cards.js";
import { factsOf, sumAddress } from "../../hooks/site/static/js/facts.js";
import { outcome } from "../../hooks/site/static/js/send.js";

const DECLARED = [
  { key: "id", ask: "auto" }, { key: "kind", ask: "quick" }, { key: "title", ask: "later" }, { key: "stage", ask: "soon" },
  { key: "operation", ask: "soon" }, { key: "material", ask: "facts" }, { key: "could_have", ask: "soon" },
  { key: "why", ask: "later" }, { key: "now_do", ask: "later" }, { key: "retired", ask: "later" },
];

test("questions come quickest first, and nothing already said is asked again", () => {
  const asked = openQuestions(/** @type {any} */ (DECLARED), { kind: "crash", operation: "slot" }).map(({ key }) => key);
  assert.deepEqual(asked, ["stage", "could_have", "why", "now_do", "title"]);
});

test("a check holds the numbers that went wrong, and those that mend it where others were tried", () => {
  const held = { value: "removal_rate_rise", side: "at_most", limit: "2" };
  const [wrong, mended] = [{ cutter_diameter: "8 mm" }, { cutter_diameter: "4 mm" }];
  const bare = { calculator: "corner-clearance", inputs: wrong, value: "removal_rate_rise", at_most: "2" };
  assert.deepEqual(checkOf({ name: "corner-clearance", inputs: wrong, before: null }, held), bare);
  assert.deepEqual(checkOf({ name: "corner-clearance", inputs: mended, before: wrong }, held),
    { ...bare, mended_inputs: mended });
  assert.deepEqual(checkOf({ name: "corner-clearance", inputs: { ...wrong }, before: wrong }, held), bare);
});

test("a lesson's facts open a calculator with what it knows of them, units kept", () => {
  const facts = factsOf({ cutter: { cutter_diameter: "1/4 in", teeth: "3" }, geometry: { pocket_width: "9 mm" }, said: "x" });
  const sum = { name: "corner-clearance", inputs: [{ name: "cutter_diameter" }, { name: "pocket_width" }, { name: "corner_radius" }] };
  assert.equal(sumAddress(sum, facts, "20260311-150212-m3xq7"),
    "calculators/corner-clearance/#lesson=20260311-150212-m3xq7&cutter_diameter=1%2F4%20in&pocket_width=9%20mm");
});

test("every answer of the save endpoint has one meaning", () => {
  const saved = { id: "i", hash: "h", url: "lessons/i/" };
  assert.deepEqual(outcome(201, saved), { how: "saved", ...saved });
  assert.deepEqual(outcome(200, saved), { how: "saved", ...saved });
  assert.deepEqual(outcome(409, { error: "e", hash: "h" }), { how: "conflict", hash: "h" });
  assert.deepEqual(outcome(404, {}), { how: "missing" });
  assert.deepEqual(outcome(400, { problems: [{ field: "said", text: "empty" }] }),
    { how: "invalid", problems: [{ field: "said", text: "empty" }] });
  assert.deepEqual(outcome(413, {}), { how: "refused", text: "the server answered 413" });
  assert.deepEqual(outcome(400, { error: "not JSON" }), { how: "refused", text: "not JSON" });
});

test("the sum for a terminal survives inches, spaces and apostrophes", () => {
  assert.equal(commandLine("corner-clearance", { cutter_diameter: '1/4"', note: "it's" }),
    `python3 -m calc corner-clearance 'cutter_diameter=1/4"' 'note=it'\\''s'`);
});
