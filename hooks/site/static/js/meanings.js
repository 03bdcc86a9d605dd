/** Which words of the index a word of the question may stand for, and how sure that is. Pure. */
import { lengthOf } from "./amounts.js";
import { nearWords } from "./near.js";
import { stem } from "./stem.js";

/**
 * @typedef {import("./analyse.js").Piece} Piece
 * @typedef {{known: Set<string>, table: import("./analyse.js").Table}} Index
 * @typedef {"as is" | "begins" | "typed" | "like" | "near" | "joined"} How
 * @typedef {{term: string, weight: number, how: How, said: string}} Meaning `said`: the words of the question
 * @typedef {{weight: number, terms: Meaning[]}} Asked weight 0: an idle word, not looked for
 * @typedef {{term: string, how: How, said: string, score: number, fields: string[]}} Match
 */

/** What a word found in another way counts beside the word itself. */
const WORTH = { like: 0.85, joined: 0.9, begins: 0.7, nearNumber: 0.7, bareNumber: 0.95, oneError: 0.7, twoErrors: 0.5 };
const NEAR_LENGTH = 0.01; // 1 %: 9.5 mm is what a shop calls 3/8 in
const INCH = 25.4;
const FEWEST_TO_BEGIN = 2;
const MOST_ERRORS_FOLLOWED = 4;
const MOST_BEGINNINGS = 12;

/**
 * @param {Piece[]} pieces the whole question
 * @param {number} at which of them
 * @param {Index} search
 * @param {boolean} unfinished whether it may be the beginning of a word
 * @returns {Asked}
 */
export function meanings(pieces, at, search, unfinished) {
  const piece = pieces[at];
  if (piece.idle) return { weight: 0, terms: [] };
  const { known } = search;
  const found = [...asWritten(piece, known), ...lengths(piece, known), ...joined(piece, pieces[at + 1], known), ...groupsOver(pieces, at)];
  if (unfinished && piece.text.length >= FEWEST_TO_BEGIN) found.push(...beginnings(piece, known));
  if (!found.length) found.push(...split(piece, known), ...errors(piece, search));
  return { weight: 1, terms: best(found.filter(({ term }) => known.has(term))) };
}

/** @param {Meaning[]} found @returns {Meaning[]} each word once, as its surest meaning */
function best(found) {
  const sorted = [...found].sort((a, b) => b.weight - a.weight);
  return sorted.filter(({ term }, at) => sorted.findIndex((other) => other.term === term) === at);
}

/** @param {Piece} piece @param {Set<string>} known @returns {Meaning[]} */
function asWritten(piece, known) {
  const terms = piece.terms.filter((term) => known.has(term));
  return terms.map((term) => ({ term, weight: 1, how: "as is", said: piece.text }));
}

/** Groups of like words whose phrase covers this place. @param {Piece[]} pieces @param {number} at @returns {Meaning[]} */
function groupsOver(pieces, at) {
  return pieces.slice(0, at + 1).flatMap((piece, begin) => piece.groups.filter(({ end }) => end > at).map(({ term, end, typed }) => {
    const said = pieces.slice(begin, end).map(({ text }) => text).join(" ");
    return /** @type {Meaning} */ ({ term, weight: WORTH.like * (typed ? WORTH.oneError : 1), how: "like", said });
  }));
}

/**
 * A bare number may be millimetres, a bare fraction inches; a length also finds its near neighbours.
 * @param {Piece} piece
 * @param {Set<string>} known
 * @returns {Meaning[]}
 */
function lengths(piece, known) {
  const [term = ""] = piece.terms;
  if (!/^[\d.]+(mm)?$/.test(term)) return [];
  const bare = !term.endsWith("mm");
  const wanted = bare ? Number(term) * (piece.text.includes("/") ? INCH : 1) : lengthOf(term);
  const off = (/** @type {string} */ other) => Math.abs(lengthOf(other) - wanted) / wanted;
  return [...known].filter((other) => off(other) <= NEAR_LENGTH).map((other) => {
    const same = off(other) < 1e-5;
    const weight = (bare ? WORTH.bareNumber : 1) * (same ? 1 : WORTH.nearNumber);
    return { term: other, weight, how: same ? "as is" : "near", said: piece.text };
  });
}

/** "tool holder" is also "toolholder". @param {Piece} piece @param {Piece | undefined} next @param {Set<string>} known @returns {Meaning[]} */
function joined(piece, next, known) {
  const term = next ? piece.base + next.base : "";
  return known.has(term) ? [{ term, weight: WORTH.joined, how: "joined", said: `${piece.text} ${next?.text}` }] : [];
}

/** "toolholder" is also "tool holder". @param {Piece} piece @param {Set<string>} known @returns {Meaning[]} */
function split({ base, text }, known) {
  for (let cut = 3; cut <= base.length - 3; cut += 1) {
    const parts = [base.slice(0, cut), base.slice(cut)];
    if (parts.every((part) => known.has(part))) {
      return parts.map((term) => ({ term, weight: WORTH.joined / 2, how: "joined", said: text }));
    }
  }
  return [];
}

/** @param {Piece} piece @param {Set<string>} known @returns {Meaning[]} */
function beginnings({ text }, known) {
  const fits = [...known].filter((term) => term.length > text.length && term.startsWith(text));
  fits.sort((a, b) => a.length - b.length);
  return fits.slice(0, MOST_BEGINNINGS).map((term) => ({ term, weight: WORTH.begins, how: "begins", said: text }));
}

/**
 * Words of the index, of the groups of like words, and irregular forms ("brokn"), within a typing error.
 * @param {Piece} piece
 * @param {Index} search
 * @returns {Meaning[]}
 */
function errors({ base, text }, { known, table }) {
  const { forms, spellings } = table.words;
  const near = nearWords(base, new Set([...known, ...table.phrases.keys(), ...Object.keys(forms), ...Object.keys(spellings)]));
  const nearest = near.filter(({ errors: count }) => count === near[0].errors).slice(0, MOST_ERRORS_FOLLOWED);
  return nearest.flatMap(({ term: found, errors: count }) => {
    const term = known.has(found) ? found : stem(found, table.words);
    const weight = count === 1 ? WORTH.oneError : WORTH.twoErrors;
    const groups = (table.phrases.get(term) ?? []).filter(({ bases }) => bases.length === 1);
    const like = groups.map((group) => ({ term: group.term, weight: weight * WORTH.like, how: "like", said: text }));
    return /** @type {Meaning[]} */ ([{ term, weight, how: "typed", said: text }, ...like]);
  });
}
