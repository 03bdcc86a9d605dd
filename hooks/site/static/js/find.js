/** The find page: words and facets narrow down the lessons that the page lists anyway. */
import { searchFor } from "./search.js";
import { need } from "./site.js";
import { countsFor, filtersOf, fits, inWords } from "./facets.js";

const AT_FIRST = 30;

/** @typedef {import("./facets.js").Entry} Entry */

const form = /** @type {HTMLFormElement} */ (need("#find"));
const box = /** @type {HTMLInputElement} */ (need("#find-words"));
const list = need("#found");
const entries = [...list.children].map((element) => ({ element: /** @type {HTMLElement} */ (element), keys: keysOf(element) }));
const byId = new Map(entries.map((entry) => [entry.element.dataset.lesson, entry]));
let shown = /** @type {Entry[]} */ ([]);
let hits = /** @type {Map<string, import("./words.js").Hit>} */ (new Map());
let asked = 0;

/** @returns {Promise<void>} */
export async function start() {
  fill();
  form.addEventListener("input", () => { keepAddress(); show(); });
  form.addEventListener("reset", () => setTimeout(() => { keepAddress(); show(); }));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    list.querySelector("a")?.focus(); // Enter goes on to the best answer.
  });
  need("#find-more").addEventListener("click", showAll);
  window.addEventListener("hashchange", () => { fill(); show(); });
  await show();
}

/** @param {Element} element @returns {Record<string, string>} */
function keysOf(element) {
  return { .../** @type {HTMLElement} */ (element).dataset };
}

/** Puts what the address says into the form. */
function fill() {
  const wanted = new URLSearchParams(location.hash.slice(1));
  for (const control of controls()) control.value = wanted.get(control.name) ?? "";
}

function controls() {
  return /** @type {(HTMLInputElement | HTMLSelectElement)[]} */ ([...form.elements].filter((one) => "name" in one && one.name));
}

/** The address carries the question: it can be sent, kept, and come back to. */
function keepAddress() {
  const set = controls().map(({ name, value }) => [name, value.trim()]).filter(([, value]) => value);
  history.replaceState(null, "", `${location.pathname}#${new URLSearchParams(set)}`);
}

/** Shows what fits; only the newest question is answered. */
async function show() {
  asked += 1;
  const mine = asked;
  list.setAttribute("aria-busy", "true");
  const words = box.value.trim();
  const { found, note, trouble, matched } = await lookUp(words);
  if (mine !== asked) return;
  hits = matched;
  const filters = filtersOf(form);
  shown = found.filter((entry) => fits(entry, filters));
  list.replaceChildren(...shown.slice(0, AT_FIRST).map(told));
  list.removeAttribute("aria-busy");
  countsFor(form, found, filters);
  need("#find-more").hidden = shown.length <= AT_FIRST;
  need("#find-nothing").hidden = shown.length > 0;
  need("#find-reset").hidden = !words && Object.keys(filters).length === 0;
  need("#find-narrowed").textContent = inWords(form);
  need("#find-count").textContent = trouble || `${note}${shown.length} of ${entries.length} lessons`;
}

/**
 * @param {string} words
 * @returns {Promise<{found: Entry[], note: string, trouble: string, matched: typeof hits}>} best first; all where nothing was asked
 */
async function lookUp(words) {
  const all = { found: entries, note: "", trouble: "", matched: new Map() };
  if (!words) return all;
  try {
    const good = await searchFor(words);
    if (!good) return { ...all, note: `There is no word to look for in “${words}”: ` };
    const matched = new Map(good.map((hit) => [hit.id, hit]));
    return { ...all, found: good.flatMap(({ id }) => byId.get(id) ?? []), matched };
  } catch {
    return { ...all, trouble: "Searching by words does not work here just now. The choices below the box do." };
  }
}

/** @param {Entry} entry @returns {HTMLElement} its strip, which says why it was found */
function told({ element }) {
  const why = hits.get(element.dataset.lesson ?? "")?.why ?? [];
  const place = need(".lesson-strip__reason", element);
  place.hidden = why.length === 0;
  place.textContent = why.join("; ");
  return element;
}

function showAll() {
  const first = shown[AT_FIRST]?.element;
  list.append(...shown.slice(AT_FIRST).map(told));
  need("#find-more").hidden = true;
  first?.querySelector("a")?.focus();
}
