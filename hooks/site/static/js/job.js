/** A job's page: ticks kept on this device, and after the job one tap a line, written into its file. */
import { askForLacking } from "./keep.js";
import { declares } from "./keeping.js";
import { hello, saveJobEdit } from "./send.js";
import { address, data, fromTemplate, need, remember, remembered } from "./site.js";

const page = need(".job");
const id = page.dataset.job ?? "";
const status = need("#job-status");

/** @type {{hash: string, fields: Record<string, any>} | null} */
let job = null;

/** @returns {Promise<{busy: () => boolean}>} */
export async function start() {
  const ticked = new Set(remembered(`ticks:${id}`) ?? []);
  for (const box of page.querySelectorAll("[data-tick]")) tickable(/** @type {HTMLInputElement} */ (box), ticked);
  need("#job-print").addEventListener("click", () => window.print());
  const [stored, server, declared] = await Promise.all([data(`data/job/${id}.json`), hello(), data("data/declaration.json")]);
  job = stored;
  if (job && server?.writable) showAfter();
  if (job && declared) await askForLacking(page, { job: job.fields, declared, goTo: formOf(declared), kept: () => location.reload() });
  return { busy: () => false };
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
}

/** @param {HTMLElement} line @returns {HTMLElement} */
function answerable(line) {
  const lesson = line.dataset.lesson ?? "";
  const element = fromTemplate("after-line");
  const rule = need(".tick span", line).textContent ?? "";
  need(".after__rule", element).textContent = rule;
  need("legend", element).textContent = rule;
  const before = held().find((one) => one.lesson === lesson)?.answer;
  for (const box of element.querySelectorAll("input")) {
    box.name = `held-${lesson}`;
    box.checked = box.value === before;
    box.addEventListener("change", () => answer(lesson, box.value));
  }
  return element;
}

/** @returns {{lesson: string, answer: string, on: string}[]} */
function held() {
  return job?.fields.held ?? [];
}

/** @param {string} lesson @param {string} word */
async function answer(lesson, word) {
  if (!job) return;
  const on = new Date().toLocaleDateString("sv"); // the local day as YYYY-MM-DD
  const now = [...held().filter((one) => one.lesson !== lesson), { lesson, answer: word, on }];
  status.textContent = "Saving";
  const sent = await saveJobEdit(id, job.hash, { held: now });
  if (sent.how === "saved") {
    job = { ...job, hash: sent.hash, fields: { ...job.fields, held: now } };
    status.textContent = "Saved.";
  } else if (sent.how === "conflict") {
    job = await data(`data/job/${id}.json`);
    status.textContent = "The job was changed elsewhere just now. Tap again.";
  } else {
    status.textContent = "Not saved. Tap again when the program runs.";
  }
  for (const box of page.querySelectorAll(".after__answers input")) { // what is marked is what is stored
    const input = /** @type {HTMLInputElement} */ (box);
    input.checked = held().some((one) => `held-${one.lesson}` === input.name && one.answer === input.value);
  }
}
