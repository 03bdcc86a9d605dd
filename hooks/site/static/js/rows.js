/** A control that holds others: a list whose rows come and go. */
import { labelled } from "./controls.js";
import { fromTemplate, need } from "./site.js";

/**
 * @typedef {import("./controls.js").FieldSpec} FieldSpec
 * @typedef {import("./controls.js").Control} Control
 * @typedef {import("./many.js").Make} Make
 */

/**
 * Rows come and go. One that holds something leaves a line behind that puts it back.
 * @param {FieldSpec} field
 * @param {any[] | undefined} value
 * @param {string} path
 * @param {Make} make
 * @returns {Control}
 */
export function listControl(field, value, path, make) {
  const element = labelled(fromTemplate("field-list"), field, path);
  const rows = need("ol", element);
  const more = need(".field__add", element);
  const what = field.item?.label ?? field.label;
  /** @type {Map<HTMLElement, Control>} */
  const controls = new Map();
  let made = 0;
  rows.dataset.list = path;

  /** @param {any} item */
  const add = (item) => {
    const row = fromTemplate("field-row");
    row.dataset.path = `${path}.${made}`;
    const inner = make(/** @type {FieldSpec} */ ({ ...field.item, key: field.key, label: what, help: "" }), item, row.dataset.path);
    made += 1;
    need(".row__what", row).append(inner.element);
    need(":scope > .row__away", row).addEventListener("click", () => away(row, inner));
    controls.set(row, inner);
    rows.append(row);
    return row;
  };
  const changed = () => {
    callByNumber(standing(controls), what, field.item?.type === "group");
    element.dispatchEvent(new Event("input", { bubbles: true }));
  };
  /** @param {HTMLElement} row @param {Control} inner */
  const away = (row, inner) => {
    row.hidden = true;
    if (inner.read() === null) more.focus();
    else leaveLine(row, changed);
    changed();
  };

  if (field.item?.type === "group") more.textContent = `Add: ${what.toLowerCase()}`;
  (value?.length ? value : [null]).forEach(add);
  callByNumber(standing(controls), what, field.item?.type === "group");
  more.addEventListener("click", () => {
    const row = add(null);
    callByNumber(standing(controls), what, field.item?.type === "group");
    firstBox(row)?.focus();
  });
  return { element, read: () => numbered(controls) };
}

/** @param {Map<HTMLElement, Control>} controls @returns {HTMLElement[]} rows that were not taken away */
function standing(controls) {
  return [...controls.keys()].filter((row) => !row.hidden);
}

/**
 * What the rows hold. Each that holds something is marked with its place among them, by which problems name it.
 * @param {Map<HTMLElement, Control>} controls
 */
function numbered(controls) {
  const filled = [];
  for (const [row, inner] of controls) {
    const item = row.hidden ? null : inner.read();
    row.dataset.at = item === null ? "" : String(filled.length);
    if (item !== null) filled.push(item);
  }
  return filled.length ? filled : null;
}

/** @param {HTMLElement[]} rows @param {string} what @param {boolean} large its button says which one it takes away */
function callByNumber(rows, what, large) {
  rows.forEach((row, at) => {
    const name = `${what} ${at + 1}`;
    const button = need(":scope > .row__away", row);
    need(".field__label", row).textContent = name;
    if (large) button.textContent = `Take away ${name.toLowerCase()}`;
    else button.setAttribute("aria-label", `Take away: ${name.toLowerCase()}`);
  });
}

/** @param {HTMLElement} row @param {() => void} changed */
function leaveLine(row, changed) {
  const line = fromTemplate("field-gone");
  const back = need("button", line);
  need("span", line).textContent = `${need(".field__label", row).textContent} is taken away.`;
  back.addEventListener("click", () => {
    line.remove();
    row.hidden = false;
    changed();
    firstBox(row)?.focus();
  });
  row.after(line);
  back.focus();
}

/** @param {HTMLElement} row @returns {HTMLElement | null} */
function firstBox(row) {
  return row.querySelector("[data-box], input");
}
