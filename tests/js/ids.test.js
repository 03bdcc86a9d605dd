import assert from "node:assert/strict";
import test from "node:test";
import { lessonId, localTime, newLessonId } from "../../hooks/site/static/js/ids.js";

test("an id is the UTC second and five Crockford letters", () => {
  const id = lessonId(new Date("2026-11-25T06:30:51.900Z"), Uint8Array.of(19, 7, 26, 2, 13));
  assert.equal(id, "20261125-063051-k7t2d");
});

test("ids made on this device have the form the server checks", () => {
  for (let go = 0; go < 200; go += 1) assert.match(newLessonId(), /^\d{8}-\d{6}-[0-9a-hjkmnp-tv-z]{5}$/);
});

test("local time carries its offset, east and west of Greenwich and at half hours", () => {
  const when = new Date("2026-11-25T06:30:51Z");
  assert.equal(localTime(when, 0), "2026-11-25T06:30:51+00:00");
  assert.equal(localTime(when, -330), "2026-11-25T12:00:51+05:30");
  assert.equal(localTime(when, 210), "2026-11-25T03:00:51-03:30");
});

test("local time names the same instant as the clock it came from", () => {
  const when = new Date("2026-03-29T01:00:00Z");
  for (const behind of [0, -60, 480, -345]) assert.equal(Date.parse(localTime(when, behind)), when.getTime());
});
