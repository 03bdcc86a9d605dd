/** One question a card: what was not yet said, the quickest first. */
import { chips, control } from "./controls.js";
import { fromTemplate, need } from "./site.js";

/** Asked first, in this order: three taps; then the words that make it a lesson; then the rest as declared. */
const FIRST = ["stage", "operation", "could_have", "pass", "outcome", "why", "now_do", "changes", "check"];

/** Fields that are kept elsewhere, or that no card can ask well. */
const NEVER = ["id", "photos", "retired", "repeat_of", "shared"];

/**
 * @typedef {import("./controls.js").FieldSpec} FieldSpec
 */

/**
 * The questions still open. Pure.
 * @param {FieldSpec[]} declared
 * @param {Record<string, any>} fields as stored
 * @returns {FieldSpec[]}
 */
export function openQuestions(declared, fields) {
  const open = declared.filter(({ key, ask }) => ["soon", "later"].includes(ask) && !NEVER.includes(key) && !(key in fields));
  const place = (/** @type {FieldSpec} */ field) => {
    const first = FIRST.indexOf(field.key);
    return first < 0 ? FIRST.length : first;
  };
  return [...open].sort((one, other) => place(one) - place(other));
}

/**
 * @param {FieldSpec} field
 * @param {any} value a draft's answer, where there is one
 * @param {import("./controls.js").Words} words
 * @param {{typed: (value: any) => void, done: (value: any) => void, skip: () => void}} told
 * @returns {HTMLElement}
 */
export function questionCard(field, value, words, told) {
  const card = fromTemplate("question-card");
  const tapped = field.type === "one_of";
  const inner = tapped ? chips(field, value, words, field.key, false) : control(field, value, words);
  need(".card__control", card).append(inner.element);
  need(".card__done", card).hidden = tapped;
  need(".card__done", card).addEventListener("click", () => told.done(inner.read()));
  need(".card__skip", card).addEventListener("click", told.skip);
  inner.element.addEventListener("input", () => told.typed(inner.read()));
  // A tap answers at once; the arrow keys only move among the words, and Enter answers.
  if (tapped) {
    inner.element.addEventListener("click", (event) => {
      if (event.target instanceof HTMLInputElement && event.detail > 0) told.done(inner.read());
    });
    inner.element.addEventListener("keydown", (event) => event.key === "Enter" && told.done(inner.read()));
  }
  return card;
}

/**
 * The card of the check: which sum would have caught it is answered on a calculator's page.
 * @param {FieldSpec} field
 * @param {{name: string, title: string, address: string}[]} calculators
 * @param {() => void} skip
 */
export function checkCard(field, calculators, skip) {
  const card = fromTemplate("check-card");
  need(".card__question", card).textContent = field.label;
  need(".field__help", card).textContent = field.help;
  for (const { title, address } of calculators) {
    const item = fromTemplate("check-calculator");
    need("a", item).textContent = title;
    need("a", item).setAttribute("href", address);
    need("ul", card).append(item);
  }
  need(".card__skip", card).addEventListener("click", skip);
  return card;
}
