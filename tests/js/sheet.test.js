import assert from "node:assert/strict";
import test from "node:test";
import { notes, place } from "../../hooks/site/static/js/sheettold.js";

test("a cell is named as a spreadsheet shows it", () => {
  assert.equal(place({ row: 7, column: "D", heading: "Date" }), 'Row 7, column D "Date":');
  assert.equal(place({ row: 7, column: "AA", heading: "" }), "Row 7, column AA:");
});

test("what is not taken is told: repeated rows, lessons there already, columns that go nowhere", () => {
  const told = {
    twice: [{ row: 9, of: 4 }], there: 2, changed: [5],
    columns: [
      { field: "", filled: 3, heading: "Who", letter: "A" }, { field: "said", filled: 3, heading: "What", letter: "B" },
      { field: "", filled: 1, heading: "", letter: "C" }, { field: "", filled: 0, heading: "Empty", letter: "D" },
    ],
  };
  assert.deepEqual(notes(told), [
    "Row 9 is row 4 again, word for word: taken once.", "2 are there already and stay as they are.",
    "Of these, changed since or in other words: rows 5.", "Left out: Who, column C.",
  ]);
  assert.deepEqual(notes({ twice: [], there: 0, changed: [], columns: [] }), []);
});
