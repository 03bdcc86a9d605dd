/** A copied job at another size. */
import assert from "node:assert/strict";
import { test } from "node:test";
import { scaled, scaledBy, scaledLength } from "../../hooks/site/static/js/scaled.js";

test("every form of length that the boxes take is scaled", () => {
  const cases = [["12", "6"], ["12 mm", "6 mm"], [".25in", "0.125in"], ['1/4"', '0.125"'], ["2 1/2 in", "1.25 in"], ["0,5 mm", "0.25 mm"]];
  for (const [text, half] of cases) assert.equal(scaledLength(text, 0.5), half);
  for (const text of ["M6", "1,500", "six", "", "1/0 in"]) assert.equal(scaledLength(text, 0.5), null);
});

test("the part grows, cutters and grip do not, and what was left is told", () => {
  const job = {
    part: "x", stock: { finished_length: "100 mm", bar_length: "3 m" },
    setups: [{ holding: { grip_height: "4 mm", part_height: "20 mm" }, operations: [{ cutter: { cutter_diameter: "6 mm" }, geometry: { corner_radius: "4 mm", depth: "deep", thread: "M6" } }] }],
  };
  const { fields, left } = scaled(job, 2);
  assert.equal(fields.stock.finished_length, "200 mm");
  assert.equal(fields.stock.bar_length, "3 m");
  assert.deepEqual(fields.setups[0].holding, { grip_height: "4 mm", part_height: "40 mm" });
  assert.equal(fields.setups[0].operations[0].cutter.cutter_diameter, "6 mm");
  assert.deepEqual(fields.setups[0].operations[0].geometry, { corner_radius: "8 mm", depth: "deep", thread: "M6" });
  assert.deepEqual(left, ["depth deep"]);
  assert.equal(job.stock.finished_length, "100 mm");
});

test("what is no number to scale by is told, and nothing changes", () => {
  for (const bad of ["", "two", "0", "-1", "5000"]) assert.equal(scaledBy({ part: "x" }, bad).fields, null);
  const { fields, said } = scaledBy({ stock: { finished_length: "10 mm" } }, "1,5");
  assert.equal(fields.stock.finished_length, "15 mm");
  assert.match(said, /1\.5 times/);
});
