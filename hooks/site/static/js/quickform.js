/** The controls of the record card: what stands in them, and putting back what stood there. */
import { withOffset } from "./ids.js";
import { need } from "./site.js";

/**
 * @param {HTMLFormElement} form
 * @returns {Record<string, string>} fields of a lesson; what is empty is left out
 */
export function readCard(form) {
  const typed = new FormData(form);
  const text = (/** @type {string} */ name) => String(typed.get(name) ?? "").replace(/\s+/g, " ").trim();
  const all = {
    when: withOffset(text("when")), machine: text("machine"), job: text("job"),
    kind: text("kind"), nearly: typed.has("nearly") ? "yes" : "", said: text("said"),
  };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value));
}

/**
 * @param {HTMLFormElement} form
 * @param {Record<string, string>} values fields of a lesson
 */
export function fillCard(form, values) {
  const { nearly, when } = /** @type {any} */ (form.elements);
  for (const name of ["machine", "job", "kind", "said"]) {
    const control = /** @type {any} */ (form.elements.namedItem(name));
    if (control && values[name]) control.value = values[name];
  }
  nearly.checked = values.nearly === "yes";
  when.value = (values.when ?? "").slice(0, 16);
  tellWhere(form);
}

/**
 * The folded line: when, where and on what, at one glance.
 * @param {HTMLFormElement} form
 */
export function tellWhere(form) {
  const { when, machine, job } = /** @type {any} */ (form.elements);
  const place = machine.value ? machine.selectedOptions[0].textContent.trim() : "no machine named";
  const parts = [when.value.replace("T", " ") || "Now", place, job.value ? `job ${job.value}` : "no job named"];
  need("#where-line").textContent = parts.join(" · ");
}
