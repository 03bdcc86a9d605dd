/** The choices that narrow lessons down, and how many each would leave. */

/** @typedef {{element: HTMLElement, keys: Record<string, string | undefined>}} Entry one lesson of the page */

/** @param {HTMLFormElement} form @returns {HTMLSelectElement[]} */
function selects(form) {
  return [...form.querySelectorAll("select")];
}

/** @param {HTMLFormElement} form @returns {Record<string, string>} what is chosen, by facet */
export function filtersOf(form) {
  return Object.fromEntries(selects(form).map(({ name, value }) => [name, value]).filter(([, value]) => value));
}

/**
 * @param {{keys: Record<string, string | undefined>}} entry
 * @param {Record<string, string>} filters
 * @param {string} [but] this facet aside
 */
export function fits({ keys }, filters, but = "") {
  return Object.entries(filters).every(([name, value]) => name === but || keys[name] === value);
}

/**
 * Writes behind each choice how many lessons it would leave, and shuts those that would leave none.
 * @param {HTMLFormElement} form
 * @param {Entry[]} found what the words leave
 * @param {Record<string, string>} filters
 */
export function countsFor(form, found, filters) {
  for (const select of selects(form)) {
    const others = found.filter((entry) => fits(entry, filters, select.name));
    for (const option of [...select.options].filter(({ value }) => value)) {
      const count = others.filter(({ keys }) => keys[select.name] === option.value).length;
      option.textContent = `${option.dataset.label} (${count})`;
      option.disabled = count === 0 && !option.selected;
    }
  }
}

/** @param {HTMLFormElement} form @returns {string} what is chosen, to stand behind "Narrow it down" */
export function inWords(form) {
  const chosen = selects(form).filter(({ value }) => value).map(({ selectedOptions: [option] }) => option.dataset.label);
  return chosen.length ? ` (${chosen.join(", ")})` : "";
}
