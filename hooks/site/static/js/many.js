/** A control that holds others: a group of parts, some of them folded away. */
import { fromTemplate, need } from "./site.js";
import { labelled } from "./controls.js";

/**
 * @typedef {import("./controls.js").FieldSpec} FieldSpec
 * @typedef {import("./controls.js").Control} Control
 * @typedef {(field: FieldSpec, value: any, path: string) => Control} Make
 */

/**
 * @param {FieldSpec} field
 * @param {Record<string, any> | undefined} value
 * @param {string} path
 * @param {Make} make
 * @returns {Control}
 */
export function groupControl(field, value, path, make) {
  const element = labelled(fromTemplate("field-group"), field, path);
  const parts = (field.parts ?? []).map((part) => ({
    key: part.key, ...make(part, value?.[part.key], `${path}.${part.key}`),
  }));
  need(".field__parts", element).append(...parts.map((part, at) => foldedIn(field.parts?.[at], part.element)));
  const read = () => {
    const filled = parts.map((part) => [part.key, part.read()]).filter(([, text]) => text !== null);
    return filled.length ? Object.fromEntries(filled) : null;
  };
  return { element, read };
}

/** Of a group that is asked at once, so many of its parts are seen; the others are folded. */
const SEEN = 3;

/**
 * A group within a group, or many chips, is folded away until it is wanted, or holds something; one that is asked at once only in part.
 * @param {FieldSpec | undefined} field
 * @param {HTMLElement} element
 */
function foldedIn(field, element) {
  if (field?.type === "list" && field.item?.type === "one_of") return fold(field.label, [element]);
  if (field?.type !== "group") return element;
  element.querySelector("legend")?.classList.add("visually-hidden");
  if (field.ask !== "quick") return fold(field.label, [element]);
  const parts = need(".field__parts", element);
  const others = /** @type {HTMLElement[]} */ ([...parts.children].slice(SEEN));
  parts.append(fold(`More: ${field.label.toLowerCase()}`, others));
  return element;
}

/** @param {string} label @param {HTMLElement[]} elements @returns {HTMLElement} open where one of them holds something */
function fold(label, elements) {
  const folded = /** @type {HTMLDetailsElement} */ (fromTemplate("field-fold"));
  need("summary", folded).textContent = label;
  folded.append(...elements);
  const boxes = /** @type {HTMLInputElement[]} */ ([...folded.querySelectorAll("[data-box], :checked")]);
  folded.open = boxes.some((box) => box.checked || (box.matches("[data-box]") && box.value));
  return folded;
}
