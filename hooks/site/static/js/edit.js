/** Completing a lesson: one question a card, and every field behind it. */
import { checkCard, openQuestions, questionCard } from "./cards.js";
import { changedKeys } from "./changes.js";
import { control } from "./controls.js";
import { openEdit } from "./editing.js";
import { factsOf, sumAddress } from "./facts.js";
import { ownPython, watchNumbers } from "./numbers.js";
import { clearProblems, showProblems } from "./problems.js";
import { address, data, isThere, need } from "./site.js";

const status = need("#edit-status");
const cards = need("#edit-cards");
const beside = need("#edit-beside");
const all = /** @type {HTMLFormElement} */ (need("#edit-all"));

/** @type {import("./editing.js").Editing} */
let editing;
/** @type {{fields: any[], vocabularies: any, calculators: any[]}} */
let declared;
/** @type {any[]} */
let questions = [];

/** @returns {Promise<{watch: boolean} | undefined>} its own saves make newer pages all the time */
export async function start() {
  const id = new URLSearchParams(location.hash.slice(1)).get("id") ?? "";
  window.addEventListener("hashchange", () => location.hash.includes("id=") && location.reload());
  const [lesson, declaration] = await Promise.all([data(`data/lesson/${id}.json`), data("data/declaration.json")]);
  if (!/^[0-9a-z-]+$/.test(id) || !lesson || !declaration) {
    if (/^[0-9a-z-]+$/.test(id) && await isThere(`lessons/${id}/`)) location.replace(address(`lessons/${id}/`)); // it says why
    status.textContent = "There is no such lesson here. Open a lesson and choose to complete it.";
    return undefined;
  }
  declared = declaration;
  editing = await openEdit("edit", lesson, declared.fields, beside);
  need("#edit-lesson").textContent = lesson.fields.title ?? lesson.fields.said ?? id;
  need("#edit-lesson").setAttribute("href", address(`lessons/${id}/`));
  need("#edit-tools").hidden = false;
  need("#edit-every").addEventListener("click", showAll);
  all.addEventListener("submit", saveAll);
  const python = ownPython();
  for (const form of [cards, all]) watchNumbers(form, python);
  questions = openQuestions(declared.fields, lesson.fields);
  if (editing.broughtBack) showAll();
  else nextQuestion();
  return { watch: false };
}

/** @param {string} of @returns {import("./controls.js").Word[]} */
function words(of) {
  return declared.vocabularies[of]?.words ?? [];
}

function nextQuestion() {
  const field = questions.shift();
  if (!field) return finished();
  const skip = () => nextQuestion();
  const card = field.key === "check"
    ? checkCard(field, sums(), skip)
    : questionCard(field, editing.changes()[field.key], words, {
      typed: (value) => editing.write({ [field.key]: value }),
      done: (value) => answer(field, value),
      skip,
    });
  cards.replaceChildren(card);
  need("#edit-left").textContent = questions.length ? `${questions.length} more after this one` : "the last one";
  card.focus({ preventScroll: true });
}

/** @returns {{name: string, title: string, address: string}[]} */
function sums() {
  const facts = factsOf(editing.fields());
  return declared.calculators.map((one) => ({ ...one, address: address(sumAddress(one, facts, editing.id)) }));
}

/** @param {any} field @param {any} value */
async function answer(field, value) {
  editing.write({ [field.key]: value });
  status.textContent = "Saving";
  const sent = await editing.save();
  status.textContent = TOLD[sent.how] ?? "";
  if (sent.how === "saved") nextQuestion();
  if (sent.how === "away") need(".handover", beside).focus();
  if (sent.how === "invalid") showProblems(cards, sent.problems);
}

/** @type {Record<string, string>} */
const TOLD = {
  saved: "Saved",
  away: "No server took it. It is kept here.",
  missing: "The lesson is no longer there. What you typed is kept here.",
  conflict: "The lesson's file was changed just now and its page is not new yet. Save again in a moment: nothing is lost.",
  refused: "The server would not take it. What you typed is kept here.",
  invalid: "Not saved yet: something in it is not right.",
};

function finished() {
  cards.replaceChildren();
  need("#edit-left").textContent = "";
  need("#edit-finished").hidden = false;
}

/** The full editor: every field of the declaration, filled with what is stored and what was typed. */
function showAll() {
  const fields = { ...editing.fields(), ...editing.changes() };
  const controls = declared.fields.filter(({ key }) => key !== "id" && key !== "photos")
    .map((field) => ({ key: field.key, ask: field.ask, ...control(field, fields[field.key], words) }));
  for (const place of all.querySelectorAll("[data-asks]")) {
    const asks = /** @type {HTMLElement} */ (place).dataset.asks?.split(" ") ?? [];
    place.replaceChildren(...controls.filter(({ ask }) => asks.includes(ask)).map(({ element }) => element));
  }
  all.addEventListener("input", () => {
    const now = Object.fromEntries(controls.map(({ key, read }) => [key, read()]));
    editing.replace(changedKeys(editing.fields(), now));
  });
  need("#edit-card-side").hidden = true;
  all.hidden = false;
}

/** @param {Event} event */
async function saveAll(event) {
  event.preventDefault();
  clearProblems(all);
  if (!Object.keys(editing.changes()).length) return void location.assign(address(`lessons/${editing.id}/`));
  status.textContent = "Saving";
  const sent = await editing.save();
  status.textContent = TOLD[sent.how] ?? "";
  if (sent.how === "saved") location.assign(address(sent.url));
  if (sent.how === "away") need(".handover", beside).focus();
  if (sent.how === "invalid") showProblems(all, sent.problems);
}
