/** {worker, index, queries} as JSON on standard input: runs the theme's search worker; for each query the places found. */
import { readFileSync } from "node:fs";
import vm from "node:vm";

const { worker, index, queries } = JSON.parse(readFileSync(0, "utf8"));
const said = [];
let hear;
const room = { console, postMessage: (message) => said.push(message), addEventListener: (_name, listener) => { hear = listener; } };
room.self = room;
vm.runInNewContext(readFileSync(worker, "utf8"), room);

/** @param {number} type @param {any} data */
async function tell(type, data) {
  hear({ data: { type, data } });
  while (!said.length) await new Promise((resolve) => setTimeout(resolve, 1));
  return said.shift().data;
}

await tell(0, { ...index, options: { suggest: false } });
const found = [];
for (const query of queries) {
  const { items } = await tell(2, query);
  found.push(items.map(([first]) => first.location));
}
process.stdout.write(JSON.stringify(found));
