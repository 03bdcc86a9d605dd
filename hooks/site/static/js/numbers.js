/** A number is looked at when its box is left, by the Python that reads it at a save; while somebody types, a word only goes. */
import { clearAt, errorLine, mark } from "./problems.js";
import { Python } from "./python.js";

const PATIENCE_MS = 60000;
const WAIT_MS = 250;

/** @returns {Python} for a page that has none yet; it starts when the first number is touched */
export function ownPython() {
  return new Python(() => new Worker(new URL("./worker.js", import.meta.url), { type: "module" }), PATIENCE_MS);
}

/**
 * @param {HTMLElement} form holds the boxes, now or later
 * @param {Python} python
 */
export function watchNumbers(form, python) {
  let clock = 0;
  form.addEventListener("focusin", ({ target }) => { if (number(target)) python.wake(); });
  form.addEventListener("focusout", ({ target }) => { const box = number(target); if (box) look(form, python, box, true); });
  form.addEventListener("input", ({ target }) => {
    const box = number(target);
    if (!box) return void (target instanceof Element && clearAt(form, target.getAttribute("name") ?? ""));
    clearTimeout(clock);
    if (box.getAttribute("aria-invalid")) clock = setTimeout(() => look(form, python, box, false), WAIT_MS);
  });
}

/** @param {EventTarget | null} target */
function number(target) {
  return target instanceof HTMLInputElement && target.dataset.quantity ? target : null;
}

/**
 * Without Python nothing is said before the save, which says it all.
 * @param {HTMLElement} form @param {Python} python @param {HTMLInputElement} box
 * @param {boolean} left whether a fault may be told now, or only taken away
 */
async function look(form, python, box, left) {
  const text = box.value;
  const wrong = text.trim() ? await python.send({ text, quantity: box.dataset.quantity ?? "" }).catch(() => null) : "";
  if (wrong === null || box.value !== text || !box.isConnected) return;
  const line = errorLine(form, box.name);
  if (wrong && (!left || line?.textContent === wrong)) return;
  clearAt(form, box.name);
  if (wrong && line) mark(form, line, wrong);
}
