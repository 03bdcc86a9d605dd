/** A job's page: ticks kept on this device, and after the job one tap a line, written into its file or carried home. */
import { openEdit } from "./editing.js";
import { askForLacking } from "./keep.js";
import { declares } from "./keeping.js";
import { offerKept } from "./kept.js";
import { address, data, fromTemplate, need, remember, remembered } from "./site.js";

const page = need(".job");
const id = page.dataset.job ?? "";
const status = need("#job-status");

/** @type {import("./editing.js").Editing} of the answers alone: facts half typed elsewhere are not sent with them */
let editing;

/** @returns {Promise<{busy: () => boolean}>} */
export async function start() {
  const ticked = new Set(remembered(`ticks:${id}`) ?? []);
  for (const box of page.querySelectorAll("[data-tick]")) tickable(/** @type {HTMLInputElement} */ (box), ticked);
  need("#job-print").addEventListener("click", () => window.print());
  const [stored, declared] = await Promise.all([data(`data/job/${id}.json`), data("data/declaration.json")]);
  if (!stored || !declared) return { busy: () => false };
  const answers = declared.job_fields.filter((/** @type {any} */ { key }) => key === "held");
  editing = await openEdit("job-edit", stored, answers, need("#job-beside"));
  showAfter();
  offerKept(need("#kept"), editing.draft.id);
  askForLacking(page, { job: stored.fields, declared, goTo: formOf(declared), kept: () => location.reload() });
  if (editing.broughtBack) save(); // it was tapped on an earlier visit, and no server took it then
  return { busy: () => editing.busy() };
}

/** @param {any} declared @returns {(fact: string) => (() => void) | null} the job's own facts are typed in its form */
function formOf(declared) {
  return (fact) => declares(declared.job_fields, fact) ? () => location.assign(address(`jobs/edit/#id=${id}`)) : null;
}

/** @param {HTMLInputElement} box @param {Set<string>} ticked */
function tickable(box, ticked) {
  const name = box.dataset.tick ?? "";
  box.checked = ticked.has(name);
  box.addEventListener("change", () => {
    if (box.checked) ticked.add(name);
    else ticked.delete(name);
    remember(`ticks:${id}`, [...ticked]);
  });
}

function showAfter() {
  const lines = [...page.querySelectorAll(".brief-line")];
  need("#job-after").hidden = false;
  need(".after__lines").replaceChildren(...lines.map((line) => answerable(/** @type {HTMLElement} */ (line))));
  mark();
}

/** @param {HTMLElement} line @returns {HTMLElement} */
function answerable(line) {
  const lesson = line.dataset.lesson ?? "";
  const element = fromTemplate("after-line");
  const rule = need(".tick span", line).textContent ?? "";
  need(".after__rule", element).textContent = rule;
  need("legend", element).textContent = rule;
  for (const box of element.querySelectorAll("input")) {
    box.name = `held-${lesson}`;
    box.addEventListener("change", () => answer(lesson, box.value));
  }
  return element;
}

/** @returns {{lesson: string, answer: string, on: string}[]} as stored, and as tapped since */
function held() {
  return { ...editing.fields(), ...editing.changes() }.held ?? [];
}

/** @param {string} lesson @param {string} word */
function answer(lesson, word) {
  const on = new Date().toLocaleDateString("sv"); // the local day as YYYY-MM-DD
  editing.write({ held: [...held().filter((one) => one.lesson !== lesson), { lesson, answer: word, on }] });
  save();
}

async function save() {
  status.textContent = "Saving";
  const sent = await editing.save();
  status.textContent = TOLD[sent.how] ?? "";
  mark();
}

/** What is marked is what is stored or kept. */
function mark() {
  for (const box of page.querySelectorAll(".after__answers input")) {
    const input = /** @type {HTMLInputElement} */ (box);
    input.checked = held().some((one) => `held-${one.lesson}` === input.name && one.answer === input.value);
  }
}

/** @type {Record<string, string>} */
const TOLD = {
  saved: "Saved.",
  away: "No server took it. It is kept on this device.",
  missing: "The job is no longer there. What you tapped is kept here.",
  conflict: "The job was changed just now and its page is not new yet. Tap again in a moment: nothing is lost.",
  refused: "The server would not take it. What you tapped is kept here.",
  invalid: "Not saved: something in the job's answers is not right. What you tapped is kept here.",
};
