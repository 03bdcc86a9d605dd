/** Briefs worked out on this page, by the Python that made the baked ones. */
import { Python } from "./python.js";
import { data, root } from "./site.js";

const PATIENCE_MS = 60000;

export class Briefs {
  constructor() {
    this.python = new Python(() => new Worker(new URL("./worker.js", import.meta.url), { type: "module" }), PATIENCE_MS);
    /** @type {Promise<any> | null} */
    this.laid = null;
  }

  /**
   * @param {Record<string, any>} job its fields as typed
   * @returns {Promise<{ok: boolean, brief: string, card: string, message?: string}>} rejects where Python is away
   */
  async of(job) {
    this.laid ??= this.layOut();
    try {
      await this.laid;
    } catch (error) {
      this.laid = null;
      throw error;
    }
    return this.python.send({ job: JSON.stringify(job), base: root().href.replace(/\/$/, "") });
  }

  /** The memory was changed: it is laid out anew before the next brief. */
  renew() {
    this.laid = null;
  }

  /** The memory goes to the worker once. */
  async layOut() {
    const known = await data("data/known.json");
    if (!known) throw new Error("the memory could not be loaded");
    await this.python.send({ known: JSON.stringify(known) });
  }
}
