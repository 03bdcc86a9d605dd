/** The product's own search: MiniSearch with the ranking of words.js, one index made by the build. */
import MiniSearch from "/minisearch.js";
import { answers, open as openSearch } from "/js/words.js";

/** @param {string} base where the build's data files are */
export async function open(base) {
  const [words, kept] = await Promise.all(["words", "index"].map(async (name) => (await fetch(`${base}data/${name}.json`)).json()));
  const search = openSearch(MiniSearch, words, kept, { documents: [], gone: [] });
  return async (/** @type {string} */ question, /** @type {number} */ atMost) => (answers(search, question) ?? []).slice(0, atMost).map(({ id }) => id);
}
