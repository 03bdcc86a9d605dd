/** Problems shown on the field they belong to, as the server or the sums name them. */

/**
 * The control that a problem's path belongs to: the path itself, or the nearest part of it that is
 * on the page ("cutter.cutter_diameter", then "cutter").
 * @param {ParentNode} form
 * @param {string} path
 * @returns {HTMLElement | null} its error line
 */
export function errorLine(form, path) {
  const parts = onPage(form, path).split(".");
  while (parts.length) {
    const line = form.querySelector(`.field__error[data-for="${CSS.escape(parts.join("."))}"]`);
    if (line) return /** @type {HTMLElement} */ (line);
    parts.pop();
  }
  return null;
}

/**
 * A problem counts the rows that were sent; the page has empty ones and some that were taken away besides.
 * @param {ParentNode} form
 * @param {string} path
 * @returns {string} as the boxes are named
 */
export function onPage(form, path) {
  return path.split(".").reduce((here, part) => {
    const row = form.querySelector(`[data-list="${CSS.escape(here)}"] > [data-at="${CSS.escape(part)}"]`);
    return /** @type {HTMLElement | null} */ (row)?.dataset.path ?? (here ? `${here}.${part}` : part);
  }, "");
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
    else homeless.push(text);
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
  for (let fold = line.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
  for (const control of controls(form, line)) {
    control.setAttribute("aria-invalid", "true");
    describe(control, line.id, true);
  }
}

/** @param {HTMLElement} form */
export function clearProblems(form) {
  told(form).forEach((line) => clear(form, line));
}

/**
 * What was said of one box, and of what it is a part of; other boxes keep theirs.
 * @param {HTMLElement} form
 * @param {string} path
 */
export function clearAt(form, path) {
  told(form).filter(({ dataset }) => dataset.for && `${path}.`.startsWith(`${dataset.for}.`)).forEach((line) => clear(form, line));
}

/**
 * A box keeps its help beside what is wrong with it.
 * @param {Element} control @param {string} id @param {boolean} by
 */
function describe(control, id, by) {
  const others = (control.getAttribute("aria-describedby") ?? "").split(" ").filter((one) => one && one !== id);
  const ids = by ? [...others, id] : others;
  if (ids.length) control.setAttribute("aria-describedby", ids.join(" "));
  else control.removeAttribute("aria-describedby");
}

/** @param {HTMLElement} form @returns {HTMLElement[]} the lines that say something */
function told(form) {
  return Array.from(form.querySelectorAll(".field__error:not([hidden])"));
}

/** @param {HTMLElement} form @param {HTMLElement} line */
function clear(form, line) {
  line.hidden = Boolean(line.dataset.for); // the line of other problems is empty when there are none
  line.textContent = "";
  for (const control of controls(form, line)) {
    control.removeAttribute("aria-invalid");
    describe(control, line.id, false);
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
