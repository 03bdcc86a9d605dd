/** A job in an address: unpacked, and whatever it holds, only what a sheet may hold gets out. */
import assert from "node:assert/strict";
import { test } from "node:test";
import { deflateRawSync } from "node:zlib";
import { carriedBy, shaped } from "../../hooks/site/static/js/carried.js";

const text = (key) => ({ key, type: "text" });
const FIELDS = [text("part"), { key: "setups", type: "list", item: { key: "setup", type: "group", parts: [text("name"), { key: "stages", type: "list", item: text("stage") }] } },
  { key: "stock", type: "group", parts: [text("bar")] }];
const packed = (json) => deflateRawSync(Buffer.from(json)).toString("base64url");

test("a job comes out as it went in", async () => {
  const job = { part: "Ünter", setups: [{ name: "First", stages: ["restart"] }], stock: { bar: "60 x 40" } };
  assert.deepEqual(await carriedBy(packed(JSON.stringify(job)), FIELDS), job);
});

test("what has another shape is left out, never passed on", () => {
  const odd = { part: ["x"], setups: [7, { name: { a: 1 }, stages: "restart" }, null], stock: "steel", more: "x", __proto__: { part: "p" } };
  assert.deepEqual(shaped(FIELDS, odd), { setups: [{}, {}, {}], stock: {} });
  for (const other of [null, 3, "x", true]) assert.deepEqual(shaped(FIELDS, other), {});
  assert.equal(shaped(FIELDS, { part: "x".repeat(9000) }).part.length, 2000);
});

test("no job, half a job and far too much of it are told apart from one", async () => {
  for (const bad of ["", "%%%", "AAAA", packed("{"), packed('{"part": "x"}').slice(0, 9)]) assert.equal(await carriedBy(bad, FIELDS), null);
  assert.equal(await carriedBy(packed(JSON.stringify({ part: "0".repeat(5_000_000) })), FIELDS), null);
});
