/**
 * The control of one field, made from the declaration: what it shows and how it is read back.
 * The pieces are `<template>` elements of the edit page.
 */
import { withOffset } from "./ids.js";
import { groupControl } from "./many.js";
import { listControl } from "./rows.js";
import { fromTemplate, need } from "./site.js";

/**
 * @typedef {object} FieldSpec  a field of data/declaration.json
 * @property {string} key
 * @property {string} label
 * @property {string} help
 * @property {string} ask
 * @property {string} type   text | one_of | yes_no | datetime | date | number | quantity | ref | list | group | map
 * @property {string} [of]   the vocabulary, or what is referred to
 * @property {number} [longest]
 * @property {string} [unit]
 * @property {object} [quantity]  what a number is read as
 * @property {FieldSpec} [item]   of a list
 * @property {FieldSpec[]} [parts] of a group
 *
 * @typedef {{element: HTMLElement, read: () => any}} Control  `read` gives text, list, group or null
 * @typedef {{key: string, label: string, help?: string}} Word
 * @typedef {(of: string) => Word[]} Words   the words of a vocabulary, or the things referred to
 */

/**
 * @param {FieldSpec} field
 * @param {any} value as stored
 * @param {Words} words
 * @param {string} [path] dotted, as problems name it
 * @returns {Control}
 */
export function control(field, value, words, path = field.key) {
  if (field.type === "group") return groupControl(field, value, path, part(words));
  if (field.type === "list" && field.item?.type === "one_of") return chips(field, value, words, path, true);
  if (field.type === "list") return listControl(field, value, path, part(words));
  if (field.type === "map") return mapControl(field, value, path);
  return single(field, value, words, path);
}

/** @param {Words} words */
function part(words) {
  return (/** @type {FieldSpec} */ field, /** @type {any} */ value, /** @type {string} */ path) => control(field, value, words, path);
}

/** A text that may be no longer than this gets a box of one line. */
const ONE_LINE = 90;

/** Which template holds the one box of a type. @type {Record<string, string>} */
const SINGLE = {
  one_of: "field-select", yes_no: "field-select", ref: "field-select",
  datetime: "field-when", date: "field-date", text: "field-text",
};

/** @param {FieldSpec} field @param {any} value @param {Words} words @param {string} path */
function single(field, value, words, path) {
  const choices = field.type === "yes_no" ? YES_NO : ["one_of", "ref"].includes(field.type) ? words(field.of ?? "") : [];
  const free = field.type === "ref" && (field.of === "jobs" || !choices.length);
  const short = field.type === "text" && (field.longest ?? ONE_LINE + 1) <= ONE_LINE;
  const element = labelled(fromTemplate(free || short ? "field-line" : SINGLE[field.type] ?? "field-line"), field, path);
  const box = /** @type {any} */ (need("[data-box]", element));
  if (!free) choices.forEach((word) => box.append(new Option(word.label, word.key)));
  if (value && box instanceof HTMLSelectElement && !choices.some((word) => word.key === value)) box.append(new Option(value, value));
  if (field.unit && field.unit !== "1") box.placeholder = field.unit;
  if (field.quantity) box.dataset.quantity = JSON.stringify(field.quantity);
  const shown = field.type === "datetime" ? (value ?? "").slice(0, 16) : value ?? "";
  box.value = shown;
  const read = () => {
    if (box.value === shown) return value ?? null;
    return (field.type === "datetime" ? withOffset(box.value) : box.value.trim()) || null;
  };
  return { element, read };
}

const YES_NO = [{ key: "yes", label: "yes" }, { key: "no", label: "no" }];

/**
 * Every word as a chip to tap: one of them, or several.
 * @param {FieldSpec} field @param {any} value @param {Words} words @param {string} path
 * @param {boolean} several
 * @returns {Control}
 */
export function chips(field, value, words, path, several) {
  const element = labelled(fromTemplate("field-chips"), field, path);
  const chosen = new Set(several ? value ?? [] : [value]);
  for (const word of words(field.item?.of ?? field.of ?? "")) {
    const chip = fromTemplate("field-chip");
    const box = /** @type {HTMLInputElement} */ (need("input", chip));
    Object.assign(box, { type: several ? "checkbox" : "radio", name: path, value: word.key, checked: chosen.has(word.key) });
    need("span", chip).textContent = word.label;
    chip.title = word.help ?? "";
    need(".card__answers", element).append(chip);
  }
  const read = () => {
    const keys = Array.from(element.querySelectorAll("input:checked"), (box) => /** @type {HTMLInputElement} */ (box).value);
    return several ? (keys.length ? keys : null) : keys[0] ?? null;
  };
  return { element, read };
}

/**
 * Names with values, a line each: "cutter_diameter = 8 mm".
 * @param {FieldSpec} field @param {any} value @param {string} path
 * @returns {Control}
 */
function mapControl(field, value, path) {
  const element = labelled(fromTemplate("field-text"), field, path);
  const box = /** @type {HTMLTextAreaElement} */ (need("[data-box]", element));
  box.value = Object.entries(value ?? {}).map((pair) => pair.join(" = ")).join("\n");
  const read = () => {
    const pairs = box.value.split("\n").map((line) => line.split(/\s*=\s*/, 2)).filter(([name]) => name.trim());
    return pairs.length ? Object.fromEntries(pairs.map(([name, text = ""]) => [name.trim(), text.trim()])) : null;
  };
  return { element, read };
}

/**
 * Writes a field's words into a copy of its template and names its box and its error line.
 * @param {HTMLElement} element @param {FieldSpec} field @param {string} path
 */
export function labelled(element, field, path) {
  need(".field__label", element).textContent = field.label;
  need(".field__help", element).textContent = field.help;
  const box = element.querySelector("[data-box]");
  if (box) Object.assign(box, { name: path, id: `box-${path}` });
  element.querySelector("label.field__label")?.setAttribute("for", `box-${path}`);
  const error = need(".field__error", element);
  Object.assign(error, { id: `error-${path}`, hidden: true });
  error.dataset.for = path;
  return element;
}
