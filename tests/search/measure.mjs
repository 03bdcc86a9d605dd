/** Times opening and asking the index in the folder named, beside making it from the documents on standard input. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import MiniSearch from "minisearch";
import { open, rank } from "../../hooks/site/static/js/words.js";

const QUESTIONS = ["dug in at the corner", '1/4" cutter chattered', "vise handel left on", "broke the tap in blind hole", "tool len"];
const read = (name) => readFileSync(join(process.argv[2], name), "utf8");
const documents = JSON.parse(readFileSync(0, "utf8"));
const words = JSON.parse(read("words.json"));

const timed = (what, work) => {
  const start = performance.now();
  const result = work();
  console.log(`  ${what.padEnd(22)} ${(performance.now() - start).toFixed(0).padStart(8)} ms`);
  return result;
};
timed("open, made from texts", () => open(MiniSearch, words, null, { documents, gone: [] }));
const search = timed("open, prebuilt", () => open(MiniSearch, words, JSON.parse(read("index.json")), { documents: [], gone: [] }));
timed("open, 20 recent ones", () => open(MiniSearch, words, JSON.parse(read("index.json")), { documents: documents.slice(0, 20), gone: [] }));
for (const question of QUESTIONS) rank(search, question);
for (const question of QUESTIONS) {
  const hits = timed(`ask: ${question}`.slice(0, 22), () => rank(search, question));
  if (!hits.length) console.log("    nothing found");
}
