/** The boxes of a calculator: what is typed in them, with units, and putting numbers back. */
import { withUnit, withUnits } from "./fragment.js";

/** @typedef {HTMLInputElement | HTMLSelectElement} Box */

/**
 * @param {HTMLFormElement} form
 * @returns {Box[]} every box that is an input of the calculator
 */
export function boxes(form) {
  const all = /** @type {Box[]} */ (Array.from(form.querySelectorAll("input[name], select[name]")));
  return all.filter((box) => box.name !== "system");
}

/**
 * @param {HTMLFormElement} form
 * @param {"metric"|"inch"} system
 * @returns {Record<string, string>} as typed, every bare number with the unit shown beside it
 */
export function readSum(form, system) {
  const typed = /** @type {Record<string, string>} */ ({});
  for (const box of boxes(form)) {
    if (box instanceof HTMLInputElement && box.type === "radio" && !box.checked) continue;
    const text = typedIn(box, system);
    if (text) typed[box.name] = text;
  }
  return typed;
}

/**
 * @param {HTMLFormElement} form
 * @param {Record<string, string>} inputs all of them: a box that is not named is emptied
 */
export function fillSum(form, inputs) {
  for (const box of boxes(form)) putIn(box, inputs[box.name] ?? "");
}

/**
 * What an answer assumed in an empty box stays as it was, though another number changes.
 * @param {HTMLFormElement} form
 * @param {Record<string, string>} assumed
 */
export function fillEmpty(form, assumed) {
  for (const box of boxes(form)) if (!box.value && assumed[box.name]) putIn(box, assumed[box.name]);
}

/**
 * @param {Box} box
 * @param {string} text
 */
export function putIn(box, text) {
  if (box instanceof HTMLInputElement && box.type === "radio") box.checked = box.value === text;
  else box.value = text;
  if (text) unfold(box);
}

/**
 * @param {HTMLFormElement} form
 * @returns {boolean} somebody typed before this script had come
 */
export function typedEarly(form) {
  return boxes(form).some((box) => box instanceof HTMLInputElement && box.value !== box.defaultValue);
}

/**
 * Opens the fold a box lies in, so that a number in it or a word about it is seen.
 * @param {Element} box
 */
export function unfold(box) {
  const fold = box.closest("details");
  if (fold) fold.open = true;
}

/**
 * @param {Box} box
 * @param {"metric"|"inch"} system
 * @returns {string} what is in it, a bare number with its unit
 */
function typedIn(box, system) {
  const { kind = "text" } = box.dataset;
  if (kind === "number") return withUnit(box.value, shownUnit(box, system));
  if (kind === "choice" || kind === "text") return box.value.trim();
  return withUnits(box.value, shownUnit(box, system));
}

/**
 * @param {Box} box
 * @param {"metric"|"inch"} system
 */
export function shownUnit(box, system) {
  const { unit = "", unitInch = unit } = box.dataset;
  return system === "inch" ? unitInch : unit;
}

/**
 * Changes the units shown. A bare number gets the unit it was typed under, so it stays what it was.
 * @param {HTMLFormElement} form
 * @param {"metric"|"inch"} from
 * @param {"metric"|"inch"} to
 */
export function changeUnits(form, from, to) {
  for (const box of boxes(form)) {
    if (from !== to) box.value = typedIn(box, from);
    const label = form.querySelector(`[data-unit-for="${box.name}"]`);
    if (label) label.textContent = shownUnit(box, to) === "1" ? "" : shownUnit(box, to);
  }
}
