/** What the shop's list lacks, whose it is, and what keeping it changes. */
import assert from "node:assert/strict";
import { test } from "node:test";
import { changesFor, cuttersToKeep, declares, offerFor, ownerOf } from "../../hooks/site/static/js/keeping.js";

const part = (key, type = "quantity") => ({ key, type, label: key, help: "", ask: "facts" });
const list = (key, parts) => ({ key, type: "list", label: key, help: "", ask: "later", item: { ...part("one", "group"), parts } });
const FIELDS = [
  list("machines", [part("key"), part("name"), part("spindle_power"), part("spindle_torque"), { ...part("power_at", "list") }]),
  list("cutters", [part("key"), part("name"), part("tool_kind"), part("cutter_diameter"), part("max_ramp_angle")]),
  list("vices", [part("key"), part("name"), part("jaw_height"), part("screw_pitch")]),
  { ...part("saw", "group"), parts: [part("saw_kerf"), part("stub")] },
];
const SHOP = {
  name: "x",
  machines: [{ key: "bed", name: "The bed mill" }],
  cutters: [{ key: "em6", name: "6 mm", tool_kind: "end_mill", cutter_diameter: "6 mm" }, { key: "8-mm-end-mill", name: "other" }],
  vices: [{ key: "v", name: "The vice", jaw_height: "40 mm" }],
  saw: { saw_kerf: "1.5 mm" },
};
const JOB = { machine: "bed", setups: [{ holding: { vice: "v" }, operations: [{}, { cutter_of_shop: "em6" }] }] };
const label = (_of, key) => key.replace("_", " ");

test("a fact belongs to the machine, vice or cutter that the job names there, or to the saw", () => {
  const whose = (fact, at) => { const owner = ownerOf(fact, JOB, at, SHOP, FIELDS); return owner && [owner.kind, owner.key]; };
  assert.deepEqual(whose("spindle_power", [0, 0]), ["machines", "bed"]);
  assert.equal(whose("spindle_torque", [0, 0]), null); // it is of one speed, not of the machine
  assert.deepEqual(whose("screw_pitch", [0, 0]), ["vices", "v"]);
  assert.deepEqual(whose("max_ramp_angle", [0, 1]), ["cutters", "em6"]);
  assert.equal(whose("max_ramp_angle", [0, 0]), null); // no cutter of the shop there
  assert.equal(whose("screw_pitch", [1, 0]), null); // no such set-up
  assert.deepEqual(whose("stub", [0, 0]), ["saw", ""]);
  assert.equal(whose("corner_radius", [0, 1]), null);
  assert.equal(whose("power_at", [0, 0]), null); // a list is no single number
});

test("only what the thing lacks and can hold is offered", () => {
  const vice = SHOP.vices[0];
  assert.deepEqual(offerFor({ jaw_height: "50 mm", screw_pitch: "5 mm", depth: "3 mm" }, "vices", vice, FIELDS).values, { screw_pitch: "5 mm" });
  assert.equal(offerFor({ jaw_height: "50 mm" }, "vices", vice, FIELDS), null);
});

test("keeping changes that one thing and leaves the others", () => {
  const { vices } = changesFor(SHOP, { kind: "vices", key: "v", name: "The vice", values: { screw_pitch: "5 mm" } });
  assert.deepEqual(vices, [{ key: "v", name: "The vice", jaw_height: "40 mm", screw_pitch: "5 mm" }]);
  assert.deepEqual(changesFor(SHOP, { kind: "saw", key: "", name: "The saw", values: { stub: "60 mm" } }), { saw: { saw_kerf: "1.5 mm", stub: "60 mm" } });
  assert.equal(SHOP.vices[0].screw_pitch, undefined);
});

test("a new thing gets a key that is free", () => {
  const { cutters } = changesFor(SHOP, { kind: "cutters", key: "", name: "8 mm end mill", values: { cutter_diameter: "8 mm" } });
  assert.deepEqual(cutters.at(-1), { key: "8-mm-end-mill-2", name: "8 mm end mill", cutter_diameter: "8 mm" });
  assert.equal(cutters.length, 3);
});

test("a job's cutters: numbers of one in the list, one that is new, none that is there already", () => {
  const offers = (...operations) => cuttersToKeep({ setups: [{ operations }] }, SHOP, FIELDS, label);
  const ramp = { cutter_of_shop: "em6", cutter: { max_ramp_angle: "3 deg" } };
  assert.deepEqual(offers(ramp, ramp), [{ kind: "cutters", key: "em6", name: "6 mm", values: { max_ramp_angle: "3 deg" } }]);
  const other = { cutter: { tool_kind: "end_mill", cutter_diameter: "8 mm" } };
  assert.deepEqual(offers(other).map(({ key, name }) => [key, name]), [["", "8 mm end mill"]]);
  assert.deepEqual(offers({ cutter: { tool_kind: "end_mill", cutter_diameter: "6 mm" } }, { cutter: { tool_kind: "end_mill" } }, {}), []);
});

test("a cutter that is in the list and says less gets the rest; no size is no cutter", () => {
  const offers = (cutter) => cuttersToKeep({ setups: [{ operations: [{ cutter }] }] }, SHOP, FIELDS, label);
  const more = { tool_kind: "end_mill", cutter_diameter: "6 mm", max_ramp_angle: "3 deg" };
  assert.deepEqual(offers(more), [{ kind: "cutters", key: "em6", name: "6 mm", values: { max_ramp_angle: "3 deg" } }]);
  assert.equal(offers({ tool_kind: "end_mill", cutter_diameter: "0.5 mm" })[0].name, "0.5 mm end mill");
  assert.equal(offers({ tool_kind: "end_mill", cutter_diameter: "½ in" })[0].name, "½ in end mill");
  for (const size of ["0", "0 mm", "-6 mm", "six", ""]) assert.deepEqual(offers({ tool_kind: "end_mill", cutter_diameter: size }), []);
});

test("a declaration is looked through to its depth", () => {
  assert.ok(declares(FIELDS, "stub") && declares(FIELDS, "spindle_power") && !declares(FIELDS, "nothing"));
});
