/** Shows what an import would do: odd cells by row and column, the first rows as lessons, and how many. */
import { fromTemplate, need } from "./site.js";

const MOST_SHOWN = 100;

/** @param {any} told the answer of api/import/preview */
export function showTold(told) {
  showOdd(told.odd, told.odd_count);
  need("#import-first").replaceChildren(...told.first.map(lesson));
  need("#import-read").hidden = !told.read_as.length;
  need("#import-read ul").replaceChildren(...told.read_as.map(readAs).map(item));
  need("#import-notes").replaceChildren(...notes(told).map(item));
  const wrong = need("#import-wrong");
  const stops = told.wrong.map(sentence);
  if (!told.ready && told.odd_count) stops.push("The odd cells above must be put right or left out first.");
  wrong.textContent = stops.join(" ");
  wrong.hidden = !stops.length;
  need("#import-go").textContent = told.new === 1 ? "Import 1 lesson" : `Import ${told.new} lessons`;
}

/**
 * Where a cell is, as a spreadsheet shows it. Pure.
 * @param {{row: number, column: string, heading: string}} cell
 */
export function place({ row, column, heading }) {
  return `Row ${row}, column ${column}${heading ? ` "${heading}"` : ""}:`;
}

/**
 * What is told in lines: rows that are not taken, columns that go nowhere. Pure.
 * @param {any} told
 * @returns {string[]}
 */
export function notes(told) {
  const left = told.columns.filter((/** @type {any} */ one) => !one.field && one.filled);
  const lines = told.twice.map((/** @type {any} */ one) => `Row ${one.row} is row ${one.of} again, word for word: taken once.`);
  if (told.there) lines.push(`${told.there} are there already and stay as they are.`);
  if (told.changed.length) lines.push(`Of these, changed since or in other words: rows ${told.changed.join(", ")}.`);
  if (left.length) lines.push(`Left out: ${left.map((/** @type {any} */ one) => one.heading || `column ${one.letter}`).join(", ")}.`);
  return lines;
}

/** @param {any[]} odd @param {number} count */
function showOdd(odd, count) {
  const shown = odd.slice(0, MOST_SHOWN);
  need("#import-odd").hidden = !count;
  need("#import-odd-head").textContent = count === 1 ? "1 odd cell" : `${count} odd cells`;
  need("#import-leave").hidden = odd.every((one) => one.stops);
  const items = shown.map((one) => {
    const line = fromTemplate("import-cell");
    need(".problems__where", line).textContent = place(one);
    need("span:last-child", line).textContent = one.text;
    return line;
  });
  if (count > shown.length) items.push(item(`and ${count - shown.length} more`));
  need("#import-odd-list").replaceChildren(...items);
}

/** @param {{row: number, facts: [string, string][]}} told */
function lesson({ row, facts }) {
  const card = fromTemplate("import-lesson");
  need("h3", card).textContent = `Row ${row}`;
  need("dl", card).append(...facts.map(([label, value]) => {
    const line = fromTemplate("import-fact");
    need("dt", line).textContent = label;
    need("dd", line).textContent = value;
    return line;
  }));
  return card;
}

/** @param {any} one */
function readAs(one) {
  return `${one.field}: ${one.word} is read as ${one.means} (${one.count})`;
}

/** @param {string} text */
function item(text) {
  return Object.assign(document.createElement("li"), { textContent: text });
}

/** @param {string} text */
function sentence(text) {
  return `${text[0].toUpperCase()}${text.slice(1)}.`;
}
