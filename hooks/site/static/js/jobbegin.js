/** What a job's form begins with: nothing, a stored job, a copy of one, or a job that came in the address. */
import { carriedBy } from "./carried.js";
import { tidy } from "./changes.js";
import { data } from "./site.js";

/**
 * @typedef {object} Beginning
 * @property {import("./editing.js").Stored | null} stored  the job that is changed; null for a new sheet
 * @property {Record<string, any>} first  what the sheet begins with
 * @property {string} label  of the button that begins it anew
 * @property {(kept: import("./drafts.js").Draft) => boolean} fits  which half-typed sheet is gone on with; others are only offered
 * @property {string} said  to whoever opened the form
 */

/**
 * @param {URLSearchParams} wanted id, copy or sheet
 * @param {any} declared the declaration
 * @returns {Promise<Beginning>}
 */
export async function beginning(wanted, declared) {
  const [id, copy, packed] = ["id", "copy", "sheet"].map((key) => wanted.get(key));
  if (packed) return carried(packed, declared);
  const other = id ?? copy;
  const found = other && /^[0-9a-z-]+$/.test(other) ? await data(`data/job/${other}.json`) : null;
  const said = other && !found ? "There is no such job here. This is a new sheet." : "";
  const first = tidy({ ...found?.fields, id: null, held: null, copied_from: found?.id }) ?? {};
  const label = found ? "Begin with the copy" : "Begin empty";
  return { stored: id ? found : null, first, label, said, fits: (kept) => kept.fields.copied_from === first.copied_from };
}

/** @param {string} packed @param {any} declared @returns {Promise<Beginning>} */
async function carried(packed, declared) {
  const first = await carriedBy(packed, declared.job_fields);
  const said = first ? "" : "The code holds no job that can be read. This is a new sheet.";
  return { stored: null, first: first ?? {}, label: "Begin as in the code", said, fits: () => false };
}
