/** What is said about a sheet: where its columns go, what its words mean, how it is to be read. */
import { fromTemplate, need } from "./site.js";

/** @typedef {{at: number, letter: string, heading: string, filled: number, example: string, field: string, unit: string}} ColumnTold */
/** @typedef {{of: string, word: string, count: number, field: string, words: {key: string, label: string}[]}} WordTold */

const NOT_SAID = "?";

const columns = need("#import-columns");
const words = need("#import-words-list");

/** @returns {HTMLSelectElement[]} one for each column of the sheet */
export function columnPlaces() {
  return Array.from(columns.querySelectorAll("select"));
}

/** Everything said about the last file. */
export function forgetSheet() {
  columns.replaceChildren();
  words.replaceChildren();
  /** @type {HTMLInputElement} */ (need("#import-without")).checked = false;
}

/** @param {ColumnTold[]} told a box for each, prefilled with what is suggested */
export function showColumns(told) {
  columns.replaceChildren(...told.map((column) => {
    const field = fromTemplate("import-column");
    const box = /** @type {HTMLSelectElement} */ (need("select", field));
    const unit = column.unit ? ` Bare numbers are in ${column.unit}.` : "";
    const heading = column.heading || "no heading";
    const filled = `${column.filled} ${column.filled === 1 ? "cell" : "cells"} filled`;
    name(field, `import-column-${column.at}`, `${column.letter}: ${heading}`,
      `${filled}${column.example ? `, as in: ${column.example}` : ""}.${unit}`);
    box.dataset.at = String(column.at);
    if (column.field && ![...box.options].some((one) => one.value === column.field)) box.append(new Option(column.field));
    box.value = column.field;
    return field;
  }));
}

/**
 * Words not known yet get a box; those answered before keep theirs, so that an answer can be changed.
 * @param {WordTold[]} told
 */
export function showWords(told) {
  const there = new Set(Array.from(words.querySelectorAll("select"), (box) => box.dataset.word));
  for (const { word, count, field, words: means } of told) {
    if (there.has(word)) continue;
    there.add(word);
    const place = fromTemplate("import-word");
    const box = /** @type {HTMLSelectElement} */ (need("select", place));
    name(place, `import-word-${there.size}`, word, `${field}, ${count} ${count === 1 ? "cell" : "cells"}`);
    box.dataset.word = word;
    means.forEach(({ key, label }) => box.append(new Option(label, key)));
    words.append(place);
  }
  need("#import-words").hidden = !there.size;
}

/**
 * @param {HTMLElement} field
 * @param {string} id
 * @param {string} label
 * @param {string} help
 */
function name(field, id, label, help) {
  const box = need("select", field);
  const line = need(".field__help", field);
  box.id = id;
  line.id = `${id}-help`;
  line.textContent = help;
  box.setAttribute("aria-describedby", line.id);
  const words = need("label", field);
  words.textContent = label;
  words.setAttribute("for", id);
}

/** @returns {Record<string, any>} all of it, as the server takes it; no columns where it shall suggest them */
export function said() {
  const places = columnPlaces();
  const means = Array.from(words.querySelectorAll("select")).filter((box) => box.value !== NOT_SAID);
  const value = (/** @type {string} */ id) => /** @type {HTMLSelectElement} */ (need(id)).value;
  return {
    columns: places.length ? Object.fromEntries(places.map((box) => [box.dataset.at, box.value])) : null,
    kind: value("#import-kind"),
    dates: value("#import-dates"),
    decimals: value("#import-decimals"),
    means: Object.fromEntries(means.map((box) => [box.dataset.word, box.value])),
    without_odd: /** @type {HTMLInputElement} */ (need("#import-without")).checked,
  };
}
