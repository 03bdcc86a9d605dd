/** Why a lesson was found, in plain words and the lesson's own wording. Pure. */
import { analyse } from "./analyse.js";

/** What a reader calls each text of a lesson. */
const PLACES = /** @type {Record<string, string>} */ ({
  title: "the title", said: "what happened", now_do: "what we do now", why: "why", changed: "what was changed", facts: "the facts",
});
const AT_MOST = 3;

/**
 * @param {import("./words.js").Search} search
 * @param {string} id
 * @param {Map<import("./meanings.js").Asked, import("./meanings.js").Match>} matches
 * @returns {string[]} such as 'matched "dug in" as "gouged" in what happened'
 */
export function reasons(search, id, matches) {
  const texts = search.mini.getStoredFields(id) ?? {};
  const pieces = new Map();
  const piecesOf = (/** @type {string} */ field) =>
    pieces.get(field) ?? pieces.set(field, analyse(texts[field] ?? "", search.table)).get(field);
  const ordered = [...matches].sort(([, a], [, b]) => b.score - a.score);
  const lines = ordered.map(([, match]) => reason(match, wording(match, piecesOf)));
  return [...new Set(lines)].slice(0, AT_MOST);
}

/**
 * @param {import("./meanings.js").Match} match
 * @param {{said: string, field: string}} found
 */
function reason({ how, said: asked }, { said, field }) {
  const place = `in ${PLACES[field]}`;
  if (said === asked) return `matched “${said}” ${place}`;
  const nearly = how === "near" ? "about " : "";
  return `matched “${asked}” as ${nearly}“${said}” ${place}`;
}

/**
 * @param {import("./meanings.js").Match} match
 * @param {(field: string) => import("./analyse.js").Piece[]} piecesOf
 * @returns {{said: string, field: string}} the words of the lesson itself
 */
function wording({ term, fields }, piecesOf) {
  const field = Object.keys(PLACES).find((name) => fields.includes(name)) ?? fields[0];
  const all = piecesOf(field);
  const at = all.findIndex((piece) => piece.terms.includes(term) || piece.groups.some((group) => group.term === term));
  const end = all[at]?.groups.find((group) => group.term === term)?.end ?? at + 1;
  return { said: all.slice(at, end).map((piece) => piece.text).join(" "), field };
}
