/** Answers as the find page does: {words, documents, question, atMost} as JSON in, {count, hits} or null as JSON out. */
import { readFileSync } from "node:fs";
import MiniSearch from "minisearch";
import { answers, open } from "./static/js/words.js";

const { words, documents, question, atMost } = JSON.parse(readFileSync(0, "utf8"));
const all = answers(open(MiniSearch, words, null, { documents, gone: [] }), question);
process.stdout.write(JSON.stringify(all && { count: all.length, hits: all.slice(0, atMost) }));
