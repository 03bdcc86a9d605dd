/**
 * The one ranking by words: the find page, the record card's echo, similar lessons, and Node use it.
 * MiniSearch keeps the inverted index and weighs a word in a field (BM25+); which words of the index a
 * word of the question stands for, and how they add up, is decided here. Pure: no page, no network.
 */
import { analyse, tableOf, termsOf } from "./analyse.js";
import { meanings } from "./meanings.js";
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
  return { fields: Object.keys(FIELDS), storeFields: [...Object.keys(FIELDS), "hash"], tokenize, processTerm: (/** @type {string} */ term) => term };
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
  const pieces = analyse(question, search.table);
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
 * The best match of each word of the question in each lesson.
 * @param {Search} search
 * @param {Asked[]} wanted
 * @returns {Map<string, Map<Asked, Match>>}
 */
function gather(search, wanted) {
  const found = new Map();
  const looked = new Map();
  for (const word of wanted) {
    for (const { term, weight, how, said } of word.terms) {
      if (!looked.has(term)) looked.set(term, lookUp(search, term));
      for (const { id, score, match } of looked.get(term)) {
        const matches = found.get(id) ?? found.set(id, new Map()).get(id);
        const worth = score * weight;
        if (worth > (matches.get(word)?.score ?? 0)) matches.set(word, { score: worth, term, how, said, fields: match[term] });
      }
    }
  }
  return found;
}

/** @param {Search} search @param {string} term */
function lookUp(search, term) {
  return search.mini.search(term, { boost: FIELDS, tokenize: () => [term] });
}

/**
 * A word that few lessons have tells more of what is asked for; one that none has tells nothing.
 * @param {Asked[]} wanted
 * @param {Map<string, Map<Asked, Match>>} found
 * @param {number} count of all lessons
 */
function weigh(wanted, found, count) {
  const having = new Map(wanted.map((word) => [word, 0]));
  for (const matches of found.values()) for (const word of matches.keys()) having.set(word, having.get(word) + 1);
  for (const [word, some] of having) word.weight = some && Math.log(1 + count / some);
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
