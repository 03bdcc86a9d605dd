/** The tool's own words, as the browser gets them, and a search over a few lessons. */
import { readFileSync } from "node:fs";
import MiniSearch from "minisearch";
import { keep, open } from "../../hooks/site/static/js/words.js";

/** Handed in by the runner: the JSON that hooks.shop.words makes of words.yaml. */
export const WORDS = JSON.parse(readFileSync(process.env.TWICE_SHY_WORDS ?? "", "utf8"));

/** A list of few words, for what must not depend on the tool's own. */
export const FEW = { mark: "few", spellings: { vise: "vice" }, forms: { dug: "dig" }, idle: ["in", "the"], same: [["gouge", "dig in"], ["chip", "swarf"]] };

/**
 * @param {any[]} documents
 * @param {any} [words]
 */
export function searchOver(documents, words = FEW) {
  const kept = JSON.parse(JSON.stringify(keep(MiniSearch, words, documents)));
  return open(MiniSearch, words, kept, { documents: [], gone: [] });
}

export { MiniSearch };
