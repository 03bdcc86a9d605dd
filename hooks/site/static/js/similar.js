/** Lessons like a sentence that is being written. */
import { openSearch } from "./search.js";
import { address } from "./site.js";
import { rank } from "./words.js";

/** Of a sentence only part will be in any other lesson; less than this is chance. */
const ENOUGH_COVERED = 0.3;

/**
 * @param {string} text
 * @param {number} atMost
 * @returns {Promise<{id: string, title: string, url: string, why: string}[]>} most alike first
 */
export async function similarTo(text, atMost) {
  const search = await openSearch();
  const hits = rank(search, text).filter(({ covered }) => covered >= ENOUGH_COVERED).slice(0, atMost);
  return hits.map(({ id, why }) => {
    const { title, said } = search.mini.getStoredFields(id);
    return { id, title: title ?? said, url: address(`lessons/${id}/`), why: why[0] ?? "" };
  });
}
