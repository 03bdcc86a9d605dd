/** Asks the worker in which Python runs: questions by number, an end to waiting, one failure for all. */

export class PythonAway extends Error {}

/**
 * @typedef {{resolve: (reply: any) => void, reject: (why: Error) => void}} Waiting
 */
export class Python {
  /**
   * @param {() => Worker} make starts the worker
   * @param {number} patience milliseconds without an answer after which nobody waits any longer
   */
  constructor(make, patience) {
    this.make = make;
    this.patience = patience;
    /** @type {Worker | null} */
    this.worker = null;
    /** @type {Map<number, Waiting>} */
    this.waiting = new Map();
    this.asked = 0;
    this.running = false;
    this.clock = 0;
  }

  /** Starts Python, once, without asking anything. A failed start is forgotten: the next one is fresh. */
  wake() {
    if (this.worker) return;
    this.running = false;
    const worker = this.make();
    worker.onmessage = ({ data }) => this.hear(data);
    worker.onerror = (event) => worker === this.worker && this.giveUp(event.message || "the worker did not start");
    worker.onmessageerror = () => this.giveUp("an answer could not be read");
    this.worker = worker;
    this.wind();
  }

  /**
   * @param {string} name calculator
   * @param {Record<string, string>} typed
   * @param {"metric"|"inch"} system
   * @returns {Promise<any>} what `calc.page.respond` said; rejects with PythonAway
   */
  ask(name, typed, system) {
    return this.send({ name, typed: JSON.stringify(typed), system });
  }

  /**
   * @param {Record<string, string>} message as js/worker.js takes it
   * @returns {Promise<any>} its reply; rejects with PythonAway
   */
  async send(message) {
    this.wake();
    this.asked += 1;
    const id = this.asked;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      this.worker?.postMessage({ id, ...message });
      if (this.running && this.waiting.size === 1) this.wind(); // more questions are no sign of life
    });
  }

  /** @param {{ready?: boolean, failed?: boolean, why?: string, id?: number, reply?: string}} said */
  hear(said) {
    if (said.failed) return this.giveUp(said.why ?? "");
    if (said.ready) this.running = true;
    const waiting = this.waiting.get(said.id ?? 0);
    if (waiting) {
      this.waiting.delete(said.id ?? 0);
      settle(waiting, said.reply ?? "null");
    }
    this.wind();
  }

  /** Winds the clock while something is awaited: every sign of life counts. */
  wind() {
    clearTimeout(this.clock);
    if (this.running && !this.waiting.size) return;
    this.clock = setTimeout(() => this.giveUp("no answer in time"), this.patience);
  }

  /** @param {string} why */
  giveUp(why) {
    clearTimeout(this.clock);
    this.worker?.terminate();
    this.worker = null;
    const waiting = [...this.waiting.values()];
    this.waiting.clear();
    waiting.forEach(({ reject }) => reject(new PythonAway(why)));
  }
}

/** @param {Waiting} waiting @param {string} reply JSON */
function settle({ resolve, reject }, reply) {
  try {
    resolve(JSON.parse(reply));
  } catch {
    reject(new PythonAway("an answer could not be read"));
  }
}
