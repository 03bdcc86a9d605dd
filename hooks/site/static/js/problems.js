/** Problems shown on the field they belong to, as the server or the sums name them. */

/**
 * The control that a problem's path belongs to: the path itself, or the nearest part of it that is
 * on the page ("cutter.cutter_diameter", then "cutter").
 * @param {ParentNode} form
 * @param {string} path
 * @returns {HTMLElement | null} its error line
 */
export function errorLine(form, path) {
  const parts = path.split(".");
  while (parts.length) {
    const line = form.querySelector(`.field__error[data-for="${CSS.escape(parts.join("."))}"]`);
    if (line) return /** @type {HTMLElement} */ (line);
    parts.pop();
  }
  return null;
}

/**
 * @param {HTMLElement} form
 * @param {{field: string, text: string}[]} problems
 * @returns {string[]} those that found no field, to be told elsewhere
 */
export function showProblems(form, problems) {
  clearProblems(form);
  const homeless = [];
  for (const { field, text } of problems) {
    const line = errorLine(form, field);
    if (line) mark(form, line, text);
    else homeless.push(`${field}: ${text}`);
  }
  const rest = form.querySelector("[data-other-problems]");
  if (rest) rest.textContent = homeless.join(" ");
  /** @type {HTMLElement | null} */ (form.querySelector("[aria-invalid=true]"))?.focus();
  return homeless;
}

/**
 * @param {HTMLElement} form
 * @param {HTMLElement} line
 * @param {string} text
 */
export function mark(form, line, text) {
  line.textContent = line.hidden ? text : `${line.textContent} ${text}`;
  line.hidden = false;
  for (const control of controls(form, line)) {
    control.setAttribute("aria-invalid", "true");
    control.setAttribute("aria-describedby", line.id);
  }
}

/** @param {HTMLElement} form */
export function clearProblems(form) {
  for (const found of form.querySelectorAll(".field__error:not([hidden])")) {
    const line = /** @type {HTMLElement} */ (found);
    line.hidden = true;
    line.textContent = "";
    controls(form, line).forEach((control) => control.removeAttribute("aria-invalid"));
  }
}

/**
 * @param {HTMLElement} form
 * @param {HTMLElement} line
 * @returns {Element[]}
 */
function controls(form, line) {
  return Array.from(form.querySelectorAll(`[name="${CSS.escape(line.dataset.for ?? "")}"]`));
}
