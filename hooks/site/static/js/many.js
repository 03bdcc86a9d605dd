/** Controls that hold others: a group of parts, and a list whose lines come and go. */
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

/**
 * @param {FieldSpec} field
 * @param {any[] | undefined} value
 * @param {string} path
 * @param {Make} make
 * @returns {Control}
 */
export function listControl(field, value, path, make) {
  const element = labelled(fromTemplate("field-list"), field, path);
  const rows = need("ol", element);
  /** @type {Map<HTMLElement, Control>} */
  const controls = new Map();
  let made = 0;

  /** @param {any} item */
  const add = (item) => {
    const row = fromTemplate("field-row");
    row.dataset.list = field.key;
    const line = /** @type {FieldSpec} */ ({ ...field.item, key: field.key, label: `${field.item?.label ?? field.label} ${made + 1}`, help: "" });
    const inner = make(line, item, `${path}.${made}`);
    made += 1;
    need(".row__what", row).append(inner.element);
    need(".row__away", row).addEventListener("click", () => {
      controls.delete(row);
      row.remove();
      element.dispatchEvent(new Event("input", { bubbles: true }));
    });
    controls.set(row, inner);
    rows.append(row);
    return row;
  };

  if (field.item?.type === "group") need(".field__add", element).textContent = `Add: ${field.item.label.toLowerCase()}`;
  (value?.length ? value : [null]).forEach(add);
  need(".field__add", element).addEventListener("click", () => {
    /** @type {HTMLElement | null} */ (add(null).querySelector("[data-box]"))?.focus();
  });
  const read = () => {
    const filled = [...controls.values()].map((inner) => inner.read()).filter((item) => item !== null);
    return filled.length ? filled : null;
  };
  return { element, read };
}

/**
 * The line of a list that is read back as its nth: lines with nothing in them are left out there.
 * @param {ParentNode | null} place
 * @param {string} key of the list
 * @param {number} nth from nought
 * @returns {HTMLElement | null}
 */
export function lineOf(place, key, nth) {
  const lines = [...place?.querySelectorAll(`.row[data-list="${key}"]`) ?? []];
  const filled = lines.filter((line) => [...line.querySelectorAll("[data-box], :checked")].some((box) => /** @type {HTMLInputElement} */ (box).value));
  return /** @type {HTMLElement | null} */ (filled[nth] ?? null);
}
