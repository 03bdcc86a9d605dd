/** "Attach this sum to a lesson": the newest answer becomes a lesson's check. */
import { newDraft, keepDraft, dropDraft, tabName } from "./drafts.js";
import { showHandOver } from "./kept.js";
import { clearProblems, showProblems } from "./problems.js";
import { saveDraft } from "./send.js";
import { address, data, need } from "./site.js";

/**
 * @typedef {object} Sum
 * @property {string} name     of the calculator
 * @property {Record<string, string>} inputs  as typed, with units
 * @property {Record<string, string> | null} before  the numbers that went wrong, once others were tried
 * @property {any} answer
 * @property {string} lesson   id of the lesson the page was opened from
 * @property {() => void} forget  takes the numbers shown now as those that went wrong
 */

const MOST_LESSONS = 200; // the newest: an older lesson is attached from its own page

/** @type {Sum | null} */
let sum = null;
/** @type {Promise<void> | null} */
let ready = null;

/** @param {Sum} newest */
export function offerAttach(newest) {
  sum = newest;
  ready ??= setUp();
  ready.then(tellNumbers);
}

/** The numbers in the boxes give no answer: nothing is attached until they do. */
export function withdrawAttach() {
  sum = null;
}

/**
 * The check that a lesson is given. Pure.
 * @param {Pick<Sum, "name"|"inputs"|"before">} from
 * @param {{value: string, side: string, limit: string}} held
 * @returns {Record<string, any>}
 */
export function checkOf({ name, inputs, before }, { value, side, limit }) {
  const check = { calculator: name, inputs: before ?? inputs, value, [side]: limit };
  return before && !same(before, inputs) ? { ...check, mended_inputs: inputs } : check;
}

/** @param {Record<string, string>} one @param {Record<string, string>} other */
function same(one, other) {
  const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...keys].every((key) => one[key] === other[key]);
}

/** Fills the panel once: lessons, newest first, and the value the calculator holds by its own rule. */
async function setUp() {
  const [lessons, declared] = await Promise.all([data("data/lessons.json"), data("data/declaration.json")]);
  const panel = need("#attach");
  const form = /** @type {HTMLFormElement} */ (need("form", panel));
  const { lesson, value, side, limit } = /** @type {any} */ (form.elements);
  const calculator = declared?.calculators.find((/** @type {any} */ one) => one.name === sum?.name);
  if (!lessons || !calculator) return;
  const known = lessons.slice(0, MOST_LESSONS).some((/** @type {any} */ one) => one.id === sum?.lesson);
  if (sum?.lesson && !known) lesson.append(new Option("the lesson you came from", sum.lesson));
  lessons.slice(0, MOST_LESSONS).forEach((/** @type {any} */ one) => lesson.append(new Option(one.title, one.id)));
  calculator.outputs.forEach((/** @type {any} */ one) => value.append(new Option(one.label, one.name)));
  if (sum?.lesson) lesson.value = sum.lesson;
  value.value = calculator.guard.value;
  side.value = calculator.guard.at_least ? "at_least" : "at_most";
  limit.value = calculator.guard.at_most ?? calculator.guard.at_least ?? "";
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    attach(form);
  });
  need("#attach-again", panel).addEventListener("click", () => {
    sum?.forget();
    if (sum) sum.before = null;
    tellNumbers();
  });
  panel.hidden = false;
}

/** What will be attached, in words. */
function tellNumbers() {
  if (!sum) return;
  const tried = sum.before && !same(sum.before, sum.inputs);
  need("#attach-inputs").textContent = inWords(sum.before ?? sum.inputs);
  need("#attach-mended").textContent = tried ? inWords(sum.inputs) : "";
  need("#attach-tried").hidden = !tried;
}

/** @param {Record<string, string>} inputs */
function inWords(inputs) {
  return Object.entries(inputs).map(([name, value]) => `${name.replaceAll("_", " ")} ${value}`).join(", ");
}

/** @param {HTMLFormElement} form */
async function attach(form) {
  const told = need("#attach-status");
  if (!sum) return void (told.textContent = "The numbers in the boxes above give no answer yet. Put them right first.");
  clearProblems(form);
  const typed = Object.fromEntries(new FormData(form));
  const draft = { ...newDraft("edit", tabName()), of: String(typed.lesson) };
  if (!draft.of) return void showProblems(form, [{ field: "lesson", text: "Choose the lesson it belongs to." }]);
  told.textContent = "Saving";
  const now = await data(`data/lesson/${draft.of}.json`);
  if (now?.fields.check && !replaces(form, draft.of)) {
    told.textContent = "That lesson has a sum already. Press once more to put this one in its place.";
    return;
  }
  draft.base = now?.hash;
  draft.was = now?.fields ?? {};
  draft.fields = { check: checkOf(sum, /** @type {any} */ (typed)) };
  keepDraft(draft);
  settle(form, told, draft);
}

/**
 * A sum that a lesson has already is replaced only when asked twice.
 * @param {HTMLFormElement} form
 * @param {string} lesson
 */
function replaces(form, lesson) {
  const asked = form.dataset.asked === lesson;
  form.dataset.asked = lesson;
  return asked;
}

/**
 * @param {HTMLFormElement} form
 * @param {HTMLElement} told
 * @param {import("./drafts.js").Draft} draft
 */
async function settle(form, told, draft) {
  const sent = await saveDraft(draft);
  told.textContent = "";
  if (sent.how === "away") return showHandOver(draft, need("#attach-handover"), () => location.reload()).focus();
  dropDraft(draft); // Everything in it still stands in the boxes of this page.
  if (sent.how === "saved") location.assign(address(sent.url));
  else if (sent.how === "invalid") told.textContent = showProblems(form, sent.problems).join(" ");
  else told.textContent = "The lesson was changed just now, so nothing was attached. Press the button once more.";
}
