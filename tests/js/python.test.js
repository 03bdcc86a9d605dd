import assert from "node:assert/strict";
import test from "node:test";
import { Python, PythonAway } from "../../hooks/site/static/js/python.js";

/** A worker that hears questions and answers when told to. */
class QuietWorker {
  constructor() {
    this.heard = [];
    this.ended = false;
  }
  postMessage(question) {
    this.heard.push(question);
  }
  terminate() {
    this.ended = true;
  }
}

/** @param {number} [patience] */
function quietPython(patience = 10000) {
  const workers = /** @type {QuietWorker[]} */ ([]);
  const make = () => {
    workers.push(new QuietWorker());
    return /** @type {any} */ (workers.at(-1));
  };
  return { python: new Python(make, patience), workers };
}

test("answers find their questions whatever their order", async () => {
  const { python, workers } = quietPython();
  const [one, two] = [python.ask("corner-clearance", { a: "1" }, "metric"), python.ask("chip-load", {}, "inch")];
  python.hear({ ready: true });
  python.hear({ id: 2, reply: '{"ok": false}' });
  python.hear({ id: 1, reply: '{"ok": true}' });
  assert.deepEqual(await one, { ok: true });
  assert.deepEqual(await two, { ok: false });
  assert.deepEqual(workers[0].heard[0], { id: 1, name: "corner-clearance", typed: '{"a":"1"}', system: "metric" });
});

test("a worker that crashes leaves nobody waiting", async () => {
  const { python, workers } = quietPython();
  const asked = [python.ask("corner-clearance", {}, "metric"), python.ask("corner-clearance", {}, "metric")];
  workers[0].onerror({ message: "out of memory" });
  for (const answer of asked) await assert.rejects(answer, PythonAway);
  assert.equal(workers[0].ended, true);
});

test("silence ends by the time-out", async () => {
  const { python, workers } = quietPython(20);
  await assert.rejects(python.ask("corner-clearance", {}, "metric"), /no answer in time/);
  assert.equal(workers[0].ended, true);
});

test("after a failure the next question starts afresh", async () => {
  const { python, workers } = quietPython();
  const lost = python.ask("corner-clearance", {}, "metric");
  python.hear({ failed: true, why: "blocked" });
  await assert.rejects(lost, /blocked/);
  const next = python.ask("corner-clearance", {}, "metric");
  assert.equal(workers.length, 2);
  python.hear({ ready: true });
  python.hear({ id: 2, reply: '{"ok": true}' });
  assert.deepEqual(await next, { ok: true });
});

test("waking twice starts one Python, and an idle one may be quiet for as long as it likes", async () => {
  const { python, workers } = quietPython(20);
  python.wake();
  python.wake();
  python.hear({ ready: true });
  await new Promise((resolve) => setTimeout(resolve, 60));
  assert.equal(workers.length, 1);
  assert.equal(workers[0].ended, false);
});

test("a hung Python is given up though somebody goes on asking", async () => {
  const { python, workers } = quietPython(60);
  python.wake();
  python.hear({ ready: true });
  const asked = [python.ask("corner-clearance", {}, "metric").catch((why) => why)];
  for (let n = 0; n < 6; n += 1) {
    await new Promise((resolve) => setTimeout(resolve, 25));
    asked.push(python.ask("corner-clearance", {}, "metric").catch((why) => why));
  }
  assert.ok((await asked[0]) instanceof PythonAway);
  assert.equal(workers[0].ended, true);
});

test("an answer that is no JSON leaves nobody waiting", async () => {
  const { python } = quietPython();
  const lost = python.ask("corner-clearance", {}, "metric");
  python.hear({ ready: true });
  python.hear({ id: 1, reply: "{" });
  await assert.rejects(lost, PythonAway);
});

test("the last word of a worker that was given up is not the new one's", async () => {
  const { python, workers } = quietPython();
  python.wake();
  python.giveUp("slow");
  python.wake();
  workers[0].onerror({ message: "late" });
  assert.equal(workers[1].ended, false);
});

test("where no worker can be made the question is refused, not thrown", async () => {
  const python = new Python(() => {
    throw new Error("no workers here");
  }, 1000);
  await assert.rejects(python.ask("corner-clearance", {}, "metric"), /no workers here/);
});
