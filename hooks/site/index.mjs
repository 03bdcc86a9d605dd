/** Prebuilds the search index: {made, words, documents} as JSON on standard input, the index on standard output. */
import { readFileSync } from "node:fs";
import MiniSearch from "minisearch";
import { keep } from "./static/js/words.js";

const { made, words, documents } = JSON.parse(readFileSync(0, "utf8"));
process.stdout.write(JSON.stringify({ made, ...keep(MiniSearch, words, documents) }));
