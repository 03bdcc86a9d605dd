import assert from "node:assert/strict";
import test from "node:test";
import { distance, nearWords } from "../../hooks/site/static/js/near.js";

test("errors are counted as letters put in, left out, mistaken or swapped", () => {
  assert.equal(distance("vice", "vice", 2), 0);
  assert.equal(distance("vcie", "vice", 2), 1);
  assert.equal(distance("viece", "vice", 2), 1);
  assert.equal(distance("vic", "vice", 2), 1);
  assert.equal(distance("vine", "vice", 2), 1);
  assert.equal(distance("kitten", "sitting", 3), 3); // the classical example, from memory
  assert.equal(distance("ca", "abc", 3), 3); // optimal string alignment, where the unrestricted distance is 2; from memory
});

test("beyond the bound it is only said to be beyond", () => {
  assert.equal(distance("chatter", "parallel", 2), 3);
  assert.equal(distance("a", "abcdef", 2), 3);
});

test("short words, numbers and groups are not guessed at", () => {
  assert.deepEqual(nearWords("tap", ["tape", "top"]), []);
  assert.deepEqual(nearWords("6061", ["6062"]), []);
  assert.deepEqual(nearWords("vice", ["#123", "#vic"]), []);
});

test("the nearest come first", () => {
  assert.deepEqual(nearWords("chattre", ["chatter", "clatter", "matter"]).map(({ term }) => term), ["chatter"]);
  assert.deepEqual(nearWords("allignment", ["alignment", "assignment"]).map(({ term }) => term), ["alignment", "assignment"]);
});
