/** The search of this page: loads the index once, when somebody first asks. */
import MiniSearch from "./minisearch.js";
import { data } from "./site.js";
import { answers, open } from "./words.js";

/** @typedef {import("./words.js").Search} Search */

const TRIES = 3;

/** @type {{search: Promise<Search> | null}} */
const loaded = { search: null };

/** @returns {Promise<Search>} the same one each time; rejected where there is no search data, and then tried anew */
export function openSearch() {
  loaded.search ??= load().catch((error) => {
    loaded.search = null;
    throw error;
  });
  return loaded.search;
}

/** The files belong together; while the site is being rebuilt, two of them may be of different builds. */
async function load() {
  for (let left = TRIES; left > 0; left -= 1) {
    const recent = await data("data/index-recent.json");
    const [words, kept] = await Promise.all([data("data/words.json"), recent?.of ? data("data/index.json") : null]);
    if (!words || !recent) break;
    if (!recent.of) return open(MiniSearch, words, null, recent);
    if (kept?.made === recent.of && kept.mark === words.mark) return open(MiniSearch, words, kept, recent);
  }
  throw new Error("the search data could not be loaded");
}

/**
 * @param {string} question
 * @returns {Promise<ReturnType<typeof answers>>}
 */
export async function searchFor(question) {
  return answers(await openSearch(), question);
}
