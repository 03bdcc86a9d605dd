import assert from "node:assert/strict";
import test from "node:test";
import { Briefs } from "../../hooks/site/static/js/briefs.js";
import { Python } from "../../hooks/site/static/js/python.js";
import { setPage } from "./setting.js";

/** A worker that lays out what it is given, answers to each job with the memory it has, and fails without one. */
class Desk {
  /** @param {Desk[]} all */
  constructor(all) {
    all.push(this);
    this.known = "";
    this.onmessage = /** @type {any} */ (null);
    queueMicrotask(() => this.onmessage({ data: { ready: true } }));
  }
  /** @param {{id: number, known?: string, job?: string, text?: string}} asked */
  postMessage({ id, known, job, text }) {
    if (known) this.known = known;
    const failed = text !== undefined || (job && !this.known);
    const reply = job ? JSON.stringify({ ok: true, brief: this.known, card: "" }) : "true";
    queueMicrotask(() => this.onmessage({ data: failed ? { failed: true, why: "crashed" } : { id, reply } }));
  }
  terminate() {
    this.onmessage = () => {};
  }
}

/** @param {() => Promise<any>} load */
function briefsOf(load) {
  setPage();
  const workers = /** @type {Desk[]} */ ([]);
  const python = new Python(() => /** @type {any} */ (new Desk(workers)), 10000);
  return { briefs: new Briefs(python, load), python, workers };
}

test("the memory is loaded and laid out once for many briefs", async () => {
  let loads = 0;
  const { briefs, workers } = briefsOf(async () => ({ n: ++loads }));
  briefs.begin();
  assert.equal((await briefs.of({ part: "a" })).brief, '{"n":1}');
  assert.equal((await briefs.of({ part: "b" })).brief, '{"n":1}');
  assert.deepEqual([loads, workers.length], [1, 1]);
});

test("after Python was given up the next brief lays the memory before the new one", async () => {
  let loads = 0;
  const { briefs, python, workers } = briefsOf(async () => ({ n: ++loads }));
  await briefs.of({ part: "a" });
  await assert.rejects(python.send({ text: "7", quantity: "{}" }));
  assert.equal((await briefs.of({ part: "b" })).brief, '{"n":2}');
  assert.equal(workers.length, 2);
});

test("after the memory changed it is laid out anew in the same Python", async () => {
  let loads = 0;
  const { briefs, workers } = briefsOf(async () => ({ n: ++loads }));
  await briefs.of({ part: "a" });
  briefs.renew();
  assert.equal((await briefs.of({ part: "b" })).brief, '{"n":2}');
  assert.equal(workers.length, 1);
});

test("what failed while somebody typed is tried again by the first brief", async () => {
  const answers = [null, { n: 1 }];
  const { briefs } = briefsOf(async () => answers.shift());
  await assert.rejects(briefs.begin(), /could not be loaded/);
  assert.equal((await briefs.of({ part: "a" })).brief, '{"n":1}');
});

test("a memory that could not be loaded is asked for again by the next brief", async () => {
  const answers = [null, { n: 1 }];
  const { briefs } = briefsOf(async () => answers.shift());
  await assert.rejects(briefs.of({ part: "a" }), /could not be loaded/);
  assert.equal((await briefs.of({ part: "a" })).brief, '{"n":1}');
});

test("an older memory that comes late does not take the place of a newer one", async () => {
  const slow = /** @type {((known: any) => void)[]} */ ([]);
  const { briefs } = briefsOf(() => new Promise((resolve) => slow.push(resolve)));
  const first = briefs.of({ part: "a" });
  briefs.renew();
  const second = briefs.of({ part: "b" });
  slow[1]({ n: 2 });
  assert.equal((await second).brief, '{"n":2}');
  slow[0]({ n: 1 });
  assert.equal((await first).brief, '{"n":2}');
  assert.equal((await briefs.of({ part: "c" })).brief, '{"n":2}');
});
