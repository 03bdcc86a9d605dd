/** Briefs worked out on this page, by the Python that made the baked ones. */
import { Python } from "./python.js";
import { data, root } from "./site.js";

const PATIENCE_MS = 60000;

export class Briefs {
  /** @param {Python} python @param {() => Promise<any>} load the memory; null where it could not be loaded */
  constructor(python = started(), load = () => data("data/known.json")) {
    this.python = python;
    this.load = load;
    /** @type {Worker | null} */
    this.home = null;
    /** @type {Promise<any> | null} */
    this.laid = null;
    this.loads = 0;
  }

  /**
   * @param {Record<string, any>} job its fields as typed
   * @returns {Promise<{ok: boolean, brief: string, card: string, message?: string}>} rejects where Python is away
   */
  async of(job) {
    await this.begin();
    return this.python.send({ job: JSON.stringify(job), base: root().href.replace(/\/$/, "") });
  }

  /** Starts Python and lays the memory before it, unless that is done: a Python that was given up took it along. */
  async begin() {
    this.python.wake();
    if (this.home !== this.python.worker) this.laid = null;
    this.home = this.python.worker;
    this.laid ??= this.lay();
    return this.laid;
  }

  /** The memory was changed: it is laid out anew before the next brief. */
  renew() {
    this.laid = null;
  }

  /** A failure is forgotten: the next brief tries again. */
  lay() {
    const laying = this.layOut();
    laying.catch(() => {
      if (this.laid === laying) this.laid = null;
    });
    return laying;
  }

  /** The memory goes to the worker once; one that was overtaken by a newer while it came goes nowhere. */
  async layOut() {
    this.loads += 1;
    const mine = this.loads;
    const known = await this.load();
    if (mine !== this.loads) return this.laid;
    if (!known) throw new Error("the memory could not be loaded");
    await this.python.send({ known: JSON.stringify(known) });
  }
}

function started() {
  return new Python(() => new Worker(new URL("./worker.js", import.meta.url), { type: "module" }), PATIENCE_MS);
}
