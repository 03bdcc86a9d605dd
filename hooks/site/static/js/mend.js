/** Phrases of like words in a question, seen although one of their words is mistyped: "tool lenght". Pure. */
import { groupsAt } from "./analyse.js";
import { nearWords } from "./near.js";

/**
 * @typedef {import("./analyse.js").Piece} Piece
 */

/**
 * @param {Piece[]} pieces a question
 * @param {import("./meanings.js").Index} search
 * @returns {Piece[]} the same, with the phrases that are there once unknown words are read as the nearest known ones
 */
export function mended(pieces, { known, table }) {
  const all = new Set([...known, ...table.parts]);
  const unknown = pieces.filter(({ idle, base }) => !idle && !all.has(base));
  if (!unknown.length || pieces.length < 2) return pieces;
  const bases = pieces.map((piece) => (unknown.includes(piece) ? nearest(piece.base, all) : [piece.base]));
  return pieces.map((piece, at) => {
    const phrases = groupsAt(bases, at, table).filter(({ end }) => end > at + 1);
    const more = phrases.filter(({ term, end }) => !piece.groups.some((group) => group.term === term && group.end === end));
    return { ...piece, groups: [...piece.groups, ...more.map((group) => ({ ...group, typed: true }))] };
  });
}

/** @param {string} base @param {Set<string>} all @returns {string[]} */
function nearest(base, all) {
  const near = nearWords(base, all);
  return near.filter(({ errors }) => errors === near[0].errors).map(({ term }) => term);
}
