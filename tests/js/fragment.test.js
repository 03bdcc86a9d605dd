import assert from "node:assert/strict";
import test from "node:test";
import { readFragment, withUnit, withUnits, writeFragment } from "../../hooks/site/static/js/fragment.js";

test("what is written into the address is read back, signs and all", () => {
  const inputs = { cutter_diameter: '1/4"', approach: "+X", efficiency: "80 %", note: "a&b=c #1 é" };
  assert.deepEqual(readFragment(writeFragment(inputs, "20261125-063051-k7q2d")),
    { inputs, lesson: "20261125-063051-k7q2d", twice: [] });
});

test("an address typed by hand is read: bare spaces and a stray per cent sign", () => {
  assert.deepEqual(readFragment("#cutter_diameter=6 mm&efficiency=80 %").inputs,
    { cutter_diameter: "6 mm", efficiency: "80 %" });
});

test("a key that stands twice is named and the first one counts", () => {
  assert.deepEqual(readFragment("#a=1&a=2"), { inputs: { a: "1" }, lesson: "", twice: ["a"] });
});

test("an empty fragment holds nothing", () => {
  for (const hash of ["", "#", "#next"]) assert.deepEqual(readFragment(hash).inputs, {});
});

test("a bare number gets the unit shown beside its box", () => {
  assert.equal(withUnit("6", "mm"), "6 mm");
  assert.equal(withUnit(" 0,5 ", "mm"), "0,5 mm");
  assert.equal(withUnit(".25", "in"), ".25 in");
  assert.equal(withUnit("1 1/4", "in"), "1 1/4 in");
  assert.equal(withUnit("4", "1"), "4");
  for (const typed of ["1e-3", "2E3", "1.5e+2", "- 5", "−5", "½", "1½", "1 ½", "3 / 8"]) assert.equal(withUnit(typed, "in"), `${typed} in`);
});

test("what has a unit or could be misread goes on as typed, for the sums to accept or refuse", () => {
  for (const typed of ["6 mm", '1/4"', ".25in", "80 %", "1,500", "six", ""]) assert.equal(withUnit(typed, "mm"), typed);
  assert.equal(withUnit("1/4", "mm"), "1/4");
});

test("several numbers get one unit for all", () => {
  assert.equal(withUnits("1, 2.5, -3", "in"), "1, 2.5, -3 in");
  assert.equal(withUnits("80 x 4; 1,5 x 2", "mm"), "80 x 4; 1,5 x 2 mm");
  for (const typed of ["1, 2 mm, 3", "2,0,0 mm", ""]) assert.equal(withUnits(typed, "in"), typed);
  assert.equal(withUnits("2,0,0", "1"), "2,0,0");
  assert.equal(withUnits("1e1, −2, 1½", "in"), "1e1, −2, 1½ in");
  for (const typed of ["e1, 2", "1, 2e"]) assert.equal(withUnits(typed, "in"), typed);
  assert.equal(withUnits("83 X 12", "mm"), "83 X 12 mm");
  assert.equal(withUnits("82,5x12; ", "mm"), "82,5x12 mm;");
});
