/** The few things of a browser that the pure helpers touch, for Node. */

/** Stands in for a page at the root of a site. */
export function setPage() {
  globalThis.document = /** @type {any} */ ({
    baseURI: "http://127.0.0.1:8000/record/",
    documentElement: { dataset: { base: ".." } },
  });
}

/** A Storage in memory, with the names of the real one. */
export class MemoryStorage {
  constructor() {
    this.kept = new Map();
  }
  get length() {
    return this.kept.size;
  }
  key(at) {
    return [...this.kept.keys()][at] ?? null;
  }
  getItem(key) {
    return this.kept.get(key) ?? null;
  }
  setItem(key, value) {
    this.kept.set(key, String(value));
  }
  removeItem(key) {
    this.kept.delete(key);
  }
}
