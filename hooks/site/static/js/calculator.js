/** A calculator's page: the numbers typed, the newest answer, the address that carries them. */
import { putAnswer } from "./answer.js";
import { offerAttach, withdrawAttach } from "./attach.js";
import { sumsAway } from "./away.js";
import { readFragment, writeFragment } from "./fragment.js";
import { clearProblems, errorLine, mark } from "./problems.js";
import { offerShop } from "./fromshop.js";
import { Python } from "./python.js";
import { offerWhatIsNew } from "./sumkeep.js";
import { need, remember, remembered } from "./site.js";
import { boxes, changeUnits, fillEmpty, fillSum, putIn, readSum, typedEarly, unfold } from "./sumform.js";

const PAUSE_MS = 150;
const PATIENCE_MS = 20000;

const form = /** @type {HTMLFormElement} */ (need("form.sum"));
const place = need("#answer");
const status = need("#python-status");
const name = form.dataset.calculator ?? "";
const python = new Python(
  () => new Worker(new URL("./worker.js", import.meta.url), { type: "module" }),
  Number(document.body.dataset.patience ?? form.dataset.patience ?? PATIENCE_MS),
);
const touched = /** @type {Set<string>} */ (new Set());
let system = /** @type {"metric"|"inch"} */ (remembered("units") === "inch" ? "inch" : "metric");
let lesson = "";
let newest = 0;
let pause = 0;
/** What is picked from the shop, by kind: @type {Map<string, any>} */
let picked = new Map();
/** The numbers that went wrong, once somebody tried others: @type {Record<string, string> | null} */
let before = null;

/** @returns {{busy: () => boolean}} */
export function start() {
  showSystem();
  form.addEventListener("focusin", () => python.wake(), { once: true });
  form.addEventListener("input", typed);
  form.addEventListener("submit", (event) => event.preventDefault());
  document.addEventListener("change", ({ target }) => target instanceof HTMLInputElement && pickSystem(target));
  place.addEventListener("click", tryNumber);
  window.addEventListener("hashchange", restore);
  restore();
  offerShop(form, () => { touched.add(""); workOut(); }).then((now) => { picked = now; });
  return { busy: () => touched.size > 0 || Boolean(location.hash) };
}

/** Puts the numbers of the address into the boxes, where it holds any. */
function restore() {
  const link = readFragment(location.hash);
  lesson = link.lesson;
  if (!Object.keys(link.inputs).length) return void (typedEarly(form) && workOut());
  fillSum(form, link.inputs);
  place.classList.add("answer--before"); // the worked example, until these numbers are worked out
  workOut();
  for (const input of link.twice) refuse(input, "This stands twice in the address; the first is used.");
}

/** @param {Event} event */
function typed(event) {
  const box = /** @type {HTMLInputElement} */ (event.target);
  if (box.name === "system") return;
  touched.add(box.name);
  clearTimeout(pause);
  pause = window.setTimeout(workOut, PAUSE_MS);
}

/** @param {HTMLInputElement} radio */
function pickSystem(radio) {
  if (radio.name !== "system" || !radio.checked) return;
  const from = system;
  system = radio.value === "inch" ? "inch" : "metric";
  remember("units", system);
  changeUnits(form, from, system);
  workOut();
}

function showSystem() {
  const radio = document.querySelector(`input[name="system"][value="${system}"]`);
  if (radio instanceof HTMLInputElement) radio.checked = true;
  changeUnits(form, "metric", system);
  if (system === "inch") workOut();
}

/**
 * A change that the answer offers: its number goes into the box, and what stood there is kept as "before".
 * @param {MouseEvent} event
 */
function tryNumber(event) {
  const button = event.target instanceof Element ? event.target.closest("[data-try-input]") : null;
  if (!(button instanceof HTMLElement)) return;
  const box = boxes(form).find(({ name: input }) => input === button.dataset.tryInput);
  if (!box) return;
  before ??= readSum(form, system);
  fillEmpty(form, readFragment(button.dataset.tryKeep ?? "").inputs);
  putIn(box, button.dataset.tryValue ?? "");
  touched.add(box.name);
  workOut();
}

/** Asks for the answer to what stands in the boxes; an answer overtaken by a newer question is dropped. */
async function workOut() {
  newest += 1;
  const mine = newest;
  const inputs = readSum(form, system);
  history.replaceState(null, "", writeFragment(inputs, lesson));
  remember(`typed:${name}`, inputs);
  status.textContent = python.running ? "Working it out" : "Starting the sums in this browser: some seconds the first time";
  try {
    const reply = await python.ask(name, inputs, system);
    if (mine === newest) show(reply, inputs);
  } catch {
    if (mine !== newest) return;
    status.replaceChildren(...sumsAway(name, inputs, () => {
      python.patience *= 2;
      workOut();
    }));
  }
}

/**
 * @param {any} reply of calc.page.respond
 * @param {Record<string, string>} inputs
 */
function show(reply, inputs) {
  clearProblems(form);
  place.classList.toggle("answer--before", !reply.ok);
  if (!reply.ok) {
    status.textContent = "The answer shown is for the numbers before.";
    withdrawAttach();
    return refuse(reply.field, reply.message);
  }
  putAnswer(place, reply.html);
  status.textContent = [".answer__band", ".answer__big"].map((part) => place.querySelector(part)?.textContent?.trim() ?? "").join(": ");
  offerAttach({ name, inputs, before, answer: reply.answer, lesson, forget: () => { before = null; } });
  offerWhatIsNew(inputs, touched, picked);
}

/**
 * A word about one box. A box that nobody has come to yet is not called wrong for being empty.
 * @param {string} field
 * @param {string} message
 */
function refuse(field, message) {
  const line = errorLine(form, field);
  const box = boxes(form).find(({ name: input }) => input === field);
  if (!line || (box && !box.value && !touched.has(field))) status.textContent = message;
  else mark(form, line, message);
  if (box) unfold(box);
}
