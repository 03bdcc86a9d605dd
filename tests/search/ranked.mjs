/** {words, documents, queries} as JSON on standard input; for each query the ids found, best first. */
import { readFileSync } from "node:fs";
import MiniSearch from "minisearch";
import { keep, open, rank } from "../../hooks/site/static/js/words.js";

const { words, documents, queries } = JSON.parse(readFileSync(0, "utf8"));
const search = open(MiniSearch, words, keep(MiniSearch, words, documents), { documents: [], gone: [] });
const found = queries.map((query) => rank(search, query, { atMost: 10 }).map(({ id }) => id));
process.stdout.write(JSON.stringify(found));
