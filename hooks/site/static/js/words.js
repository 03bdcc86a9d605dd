/**
 * The one ranking by words: the find page, the record card's echo, similar lessons, and Node use it.
 * MiniSearch keeps the inverted index and weighs a word in a field (BM25); which words of the index a
 * word of the question stands for, and how they add up, is decided here. Pure: no page, no network.
 */
import { analyse, tableOf, termsOf } from "./analyse.js";
import { gather, weigh } from "./gather.js";
import { meanings } from "./meanings.js";
import { mended } from "./mend.js";
import { reasons } from "./reasons.js";

/**
 * @typedef {import("./analyse.js").Words} Words
 * @typedef {{id: string, hash: string} & Record<string, string>} Doc a lesson's texts by field
 * @typedef {{mark: string, index: any}} Kept what the build keeps: the words' mark and MiniSearch's own form
 * @typedef {{mini: any, table: import("./analyse.js").Table, known: Set<string>}} Search
 * @typedef {import("./meanings.js").Asked} Asked
 * @typedef {import("./meanings.js").Match} Match
 * @typedef {{id: string, score: number, covered: number, why: string[]}} Hit
 */

/** How much a word counts in each text of a lesson. */
export const FIELDS = { title: 2, said: 2, now_do: 1, why: 1, changed: 0.8, facts: 1.5 };

/** Long lessons hold many words by chance: the length of a text counts in full, and a mere occurrence earns nothing extra. */
const BM25 = { k: 1.2, b: 1, d: 0 };

/** A lesson that holds every word asked for comes before one that holds one of them often. */
const COVERED = 0.8;

/** A lesson this much worse than the best one is chance, not an answer. */
const ENOUGH = 0.08;

/** @param {import("./analyse.js").Table} table @param {(term: string) => void} [seen] told every word kept */
function options(table, seen = () => {}) {
  const tokenize = (/** @type {string} */ text) => {
    const terms = termsOf(text, table);
    terms.forEach(seen);
    return terms;
  };
  const processTerm = (/** @type {string} */ term) => term;
  const storeFields = [...Object.keys(FIELDS), "hash"];
  return { fields: Object.keys(FIELDS), storeFields, tokenize, processTerm, searchOptions: { boost: FIELDS, bm25: BM25 } };
}

/**
 * @param {any} MiniSearch
 * @param {Words} words
 * @param {Doc[]} documents
 * @returns {Kept} what a build writes to a file
 */
export function keep(MiniSearch, words, documents) {
  const mini = new MiniSearch(options(tableOf(words)));
  mini.addAll(documents);
  return { mark: words.mark, index: mini.toJSON() };
}

/**
 * @param {any} MiniSearch
 * @param {Words} words
 * @param {Kept | null} kept prebuilt; null or of other words: everything is in `recent`
 * @param {{documents: Doc[], gone: string[]}} recent what changed since `kept` was made
 * @returns {Search}
 */
export function open(MiniSearch, words, kept, recent) {
  const table = tableOf(words);
  const known = new Set(/** @type {[string, any][]} */ (kept?.index.index ?? []).map(([term]) => term));
  const set = options(table, (term) => known.add(term));
  const mini = kept ? MiniSearch.loadJS(kept.index, set) : new MiniSearch(set);
  recent.gone.forEach((id) => mini.discard(id));
  recent.documents.forEach((document) => (mini.has(document.id) ? mini.replace(document) : mini.add(document)));
  return { mini, table, known };
}

/**
 * @param {Search} search
 * @param {string} question as typed
 * @param {{atMost?: number, typing?: boolean}} [how] `typing`: the last word may be unfinished
 * @returns {Hit[]} best first; equal ones newest first
 */
export function rank(search, question, { atMost = Infinity, typing = true } = {}) {
  const pieces = mended(analyse(question, search.table), search);
  const asked = pieces.map((piece, at) => meanings(pieces, at, search, typing && at === pieces.length - 1));
  const wanted = asked.filter((word) => word.weight);
  const found = gather(search, wanted);
  weigh(wanted, found, search.mini.documentCount);
  const hits = [...found].map(([id, matches]) => hitOf(search, id, matches, wanted));
  hits.sort((a, b) => b.score - a.score || b.id.localeCompare(a.id));
  return hits.slice(0, atMost);
}

/**
 * What the find page and the terminal show: the ranking without what is chance.
 * @param {Search} search
 * @param {string} question
 * @returns {Hit[] | null} null where the question holds no word to look for, but only such as "the"
 */
export function answers(search, question) {
  if (analyse(question, search.table).every(({ idle }) => idle)) return null;
  return rank(search, question).filter(({ score }, _at, [best]) => score >= best.score * ENOUGH);
}

/**
 * @param {Search} search
 * @param {string} id
 * @param {Map<Asked, Match>} matches
 * @param {Asked[]} wanted
 * @returns {Hit} its `why` is put into words only when somebody looks
 */
function hitOf(search, id, matches, wanted) {
  const sum = [...matches.values()].reduce((total, { score }) => total + score, 0);
  const weight = (/** @type {Iterable<Asked>} */ words) => [...words].reduce((total, word) => total + word.weight, 0);
  const covered = matches.size / wanted.length;
  const score = sum * (1 - COVERED + COVERED * weight(matches.keys()) / weight(wanted));
  return { id, score, covered, get why() { return reasons(search, id, matches); } };
}
