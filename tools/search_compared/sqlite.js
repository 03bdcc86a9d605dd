/** SQLite's full-text search, compiled for the browser, over a database made beforehand. */
import start from "/sqlite/sqlite3.mjs";

/** @param {string} base where the database is */
export async function open(base) {
  const quiet = { print() {}, printErr() {} };
  const [sqlite, bytes] = await Promise.all([start(quiet), fetch(`${base}lessons.db`).then((got) => got.arrayBuffer())]);
  const db = new sqlite.oo1.DB();
  const at = sqlite.wasm.allocFromTypedArray(new Uint8Array(bytes));
  const { capi } = sqlite;
  db.checkRc(capi.sqlite3_deserialize(db.pointer, "main", at, bytes.byteLength, bytes.byteLength, capi.SQLITE_DESERIALIZE_FREEONCLOSE));
  const ranked = db.selectValue("SELECT sql FROM ranked");
  return async (/** @type {string} */ question, /** @type {number} */ atMost) => {
    const words = [...question.matchAll(/[\p{L}\p{N}_]+/gu)].map(([word]) => `"${word}"`).join(" OR ");
    return db.selectValues(`${ranked} LIMIT ${atMost}`, [words || '""']);
  };
}
