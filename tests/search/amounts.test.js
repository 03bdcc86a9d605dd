import assert from "node:assert/strict";
import test from "node:test";
import { lengthOf, readAmount } from "../../hooks/site/static/js/amounts.js";
import { tableOf, termsOf } from "../../hooks/site/static/js/analyse.js";
import { FEW } from "./setting.js";

const table = tableOf(FEW);
const terms = (text) => termsOf(text, table);

// The inch is 25.4 mm exactly (agreement of 1959; NIST SP 811, B.8, from memory).
test("a quarter of an inch is one word, however it is written", () => {
  for (const text of ['1/4"', "1/4 in", "1/4in", "1/4 inch", "quarter inch", "a quarter of an inch", ".25in", "0.25 in", "0,25 in", "¼\"", "6.35 mm", "6,35mm", "1/4″", "0.635 cm", "250 thou"]) {
    assert.ok(terms(text).includes("6.35mm"), `${text}: ${terms(text)}`);
  }
});

test("mixed fractions, thousandths and microns are lengths too", () => {
  assert.deepEqual(terms("1 1/4 in"), ["31.75mm"]);
  assert.deepEqual(terms('1-1/4"'), ["31.75mm"]);
  assert.deepEqual(terms("two thou"), ["0.0508mm"]);
  assert.deepEqual(terms("20 µm"), ["0.02mm"]);
  assert.deepEqual(terms("half a millimetre"), ["0.5mm"]);
  assert.deepEqual(terms("quarter-inch"), ["6.35mm"]);
  assert.deepEqual(terms("0.05mm/tooth 0.002 in/tooth"), ["0.05mm", "0.0508mm"]);
});

test("a speed keeps its own unit, and a comma before three digits parts thousands", () => {
  assert.deepEqual(terms("9,000 rpm"), ["9000rpm"]);
  assert.deepEqual(terms("40 in/min"), ["1016mm/min"]);
  for (const text of ["12k rpm", "12 krpm", "12k revs", "12,000 rpm"]) assert.deepEqual(terms(text), ["12000rpm"], text);
  assert.deepEqual(terms("7.4k rpm"), ["7400rpm"]);
  assert.deepEqual(readAmount("0,125"), { value: 0.125, unit: "" });
});

test("a thread keeps its name, and M6x1 is also an M6", () => {
  assert.deepEqual(terms("M6"), ["m6"]);
  assert.deepEqual(terms("M6 x 1"), ["m6x1", "m6"]);
  assert.deepEqual(terms("M6x1.0"), ["m6x1", "m6"]);
  assert.deepEqual(terms("M8×1,25"), ["m8x1.25", "m8"]);
  assert.deepEqual(terms("1/4-20"), ["1/4-20"]);
});

test("what only looks like an amount is left a word", () => {
  assert.deepEqual(terms("G54 h7 316L T5"), ["g54", "h7", "316l", "t5"]);
  assert.deepEqual(terms("put 2 in the vice").includes("50.8mm"), false);
  assert.deepEqual(terms("6x20 mm"), ["6", "20mm"]);
  assert.deepEqual(terms("Ø6 mm"), ["6mm"]);
});

test("only a length is a length", () => {
  assert.equal(lengthOf("6.35mm"), 6.35);
  for (const term of ["6.35", "1016mm/min", "mm", "m6", "#3"]) assert.ok(Number.isNaN(lengthOf(term)), term);
});
