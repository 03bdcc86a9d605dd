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
  need(".field__parts", element).append(...parts.map((part) => part.element));
  const read = () => {
    const filled = parts.map((part) => [part.key, part.read()]).filter(([, text]) => text !== null);
    return filled.length ? Object.fromEntries(filled) : null;
  };
  return { element, read };
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
