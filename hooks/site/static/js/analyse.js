/** Text brought to the words it is found by: stems, amounts in mm, thread names, and groups of like words. Pure. */
import { AMOUNT, amountTerms } from "./amounts.js";
import { stem } from "./stem.js";

/**
 * @typedef {{mark: string, spellings: Record<string, string>, forms: Record<string, string>, same: string[][],
 *   idle: string[]}} Words the tool's words.yaml joined with the shop's
 * @typedef {{term: string, end: number, typed?: boolean}} Group `typed`: but for a typing error
 * @typedef {{text: string, base: string, idle: boolean, terms: string[], groups: Group[]}} Piece
 *   `text` as written; `base` its stem; `terms` it is found by; `groups` of like words that begin here, with
 *   the index of the piece after the last
 * @typedef {{words: Words, idle: Set<string>, phrases: Map<string, {bases: string[], term: string}[]>,
 *   parts: Set<string>}} Table `phrases` by their first word, `parts` all words of them
 */

const THREAD = String.raw`\bm\d+(?:[.,]\d+)?(?: ?[x×] ?\d+(?:[.,]\d+)?)?\b|\b\d+\/\d+-\d+\b|\bg ?\d+\/\d+\b`;
const WORD = String.raw`(?!(?<=\d)x\d)(?:[a-z\u00df-\u024f]+(?:'[a-z]+)?\d*[a-z]*|\d+[a-z]+\d*)`;
const PIECE = new RegExp(`(?<thread>${THREAD})|(?<amount>${AMOUNT})|(?<word>${WORD})`, "g");

/**
 * @param {Words} words
 * @returns {Table} the words made ready for many texts
 */
export function tableOf(words) {
  const table = { words, idle: new Set(words.idle), phrases: new Map(), parts: new Set() };
  words.same.forEach((group, at) => group.forEach((phrase) => addPhrase(table, phrase, `#${at}`)));
  for (const list of table.phrases.values()) list.sort((a, b) => b.bases.length - a.bases.length);
  return table;
}

/** @param {Table} table @param {string} phrase @param {string} term */
function addPhrase(table, phrase, term) {
  const bases = split(phrase, table).map((piece) => piece.base);
  if (!bases.length) return;
  bases.forEach((base) => table.parts.add(base));
  const list = table.phrases.get(bases[0]) ?? [];
  if (list.some((other) => other.term === term && other.bases.join(" ") === bases.join(" "))) return;
  list.push({ bases, term });
  table.phrases.set(bases[0], list);
}

/**
 * @param {string} text
 * @param {Table} table
 * @returns {Piece[]} in the order of the text
 */
export function analyse(text, table) {
  const pieces = split(text, table);
  const bases = pieces.map(({ base }) => [base]);
  pieces.forEach((piece, at) => { piece.groups = groupsAt(bases, at, table); });
  return pieces;
}

/**
 * What the index keeps of a text.
 * @param {string} text
 * @param {Table} table
 * @returns {string[]}
 */
export function termsOf(text, table) {
  return analyse(text, table).flatMap((piece) => [...piece.terms, ...piece.groups.map((group) => group.term)]);
}

/** @param {string} text @param {Table} table @returns {Piece[]} */
function split(text, table) {
  const plain = text.toLowerCase().replaceAll("’", "'").replace(/[ø⌀]/g, " ");
  return [...plain.matchAll(PIECE)].map((found) => pieceOf(found, table));
}

/** @param {RegExpMatchArray} found @param {Table} table @returns {Piece} */
function pieceOf(found, table) {
  const { thread, amount } = found.groups ?? {};
  if (thread) return piece(thread, threadTerms(thread));
  if (amount) return piece(amount, amountTerms(amount));
  const base = stem(bare(found[0]), table.words);
  const idle = table.idle.has(base);
  return { ...piece(found[0], idle ? [] : [base], base), idle };
}

/** @param {string} text @param {string[]} terms @param {string} base @returns {Piece} */
function piece(text, terms, base = terms[0] ?? text) {
  return { text, base, idle: false, terms, groups: [] };
}

/** @param {string} word accents and a trailing 's are no part of a word */
function bare(word) {
  return word.replace(/'s$/, "").replaceAll("'", "").normalize("NFD").replace(/[\u0300-\u036f]/g, "");
}

/** @param {string} thread M6x1 is also an M6 */
function threadTerms(thread) {
  const name = thread.replace(/[ ]/g, "").replace("×", "x").replaceAll(",", ".").replace(/\.0+$/, "");
  const [nominal] = name.split("x");
  return nominal === name ? [name] : [name, nominal];
}

/**
 * @param {string[][]} bases for each place of a text the words that may stand there
 * @param {number} at
 * @param {Table} table
 * @returns {Group[]} of like words whose phrase begins here
 */
export function groupsAt(bases, at, table) {
  const found = [];
  for (const base of bases[at]) {
    for (const phrase of table.phrases.get(base) ?? []) {
      const fits = phrase.bases.every((part, by) => bases[at + by]?.includes(part));
      if (fits) found.push({ term: phrase.term, end: at + phrase.bases.length });
    }
  }
  return found;
}
