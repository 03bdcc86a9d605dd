/** Describing a job: one form, made from the declaration; the brief follows every change. */
import { Briefs } from "./briefs.js";
import { changedKeys, tidy } from "./changes.js";
import { control } from "./controls.js";
import { newLessonId } from "./ids.js";
import { watchNumbers } from "./numbers.js";
import { clearProblems, showProblems } from "./problems.js";
import { scaled } from "./scaled.js";
import { saveJob, saveJobEdit } from "./send.js";
import { address, data, need, remember, remembered } from "./site.js";

const WAIT_MS = 250;
const NOT_ASKED = ["id", "held", "copied_from"];
const FIRST = ["part", "material", "iso513", "machine"];
/** A new sheet begins with one set-up and one operation in it. */
const EMPTY = { setups: [{ operations: [{}] }] };

const form = /** @type {HTMLFormElement} */ (need("#job-form"));
const status = need("#job-form-status");
const told = need("#brief-status");
const briefs = new Briefs();

/** @type {any} the declaration */
let declared;
/** @type {{key: string, element: HTMLElement, read: () => any}[]} */
let controls = [];
/** @type {{id: string, hash: string, fields: Record<string, any>}} what is stored, or is to be */
let sheet = { id: "", hash: "", fields: {} };
let saved = false;
let asked = 0;
let clock = 0;

/** @returns {Promise<{busy: () => boolean, watch: boolean}>} */
export async function start() {
  const wanted = new URLSearchParams(location.hash.slice(1));
  window.addEventListener("hashchange", () => /[#&](id|copy)=/.test(location.hash) && location.reload());
  declared = await data("data/declaration.json");
  sheet = await begun(wanted.get("id"), wanted.get("copy"));
  const kept = remembered(draftName());
  fill(kept ?? sheet.fields);
  if (kept) status.textContent = "What you had typed is back. It is not saved yet.";
  need("#job-scale").hidden = !wanted.get("copy");
  need("#scale-now").addEventListener("click", scale);
  watchNumbers(form, briefs.python);
  form.addEventListener("input", typed);
  form.addEventListener("submit", save);
  refresh();
  return { busy: () => !saved && Boolean(remembered(draftName())), watch: false };
}

/** @param {string | null} id @param {string | null} copy @returns {Promise<typeof sheet>} */
async function begun(id, copy) {
  const other = id ?? copy;
  const found = other && /^[0-9a-z-]+$/.test(other) ? await data(`data/job/${other}.json`) : null;
  if (other && !found) status.textContent = "There is no such job here. This is a new sheet.";
  if (id && found) return found;
  const fields = found ? { ...found.fields, id: null, held: null, copied_from: found.id } : EMPTY;
  return { id: newLessonId(), hash: "", fields: tidy(fields) ?? EMPTY };
}

function draftName() {
  return `job:${sheet.hash ? sheet.id : "new"}`;
}

/** @param {Record<string, any>} fields */
function fill(fields) {
  const words = (/** @type {string} */ of) => declared.vocabularies[of]?.words ?? [];
  controls = declared.job_fields.filter((/** @type {any} */ { key }) => !NOT_ASKED.includes(key))
    .map((/** @type {any} */ field) => ({ key: field.key, ...control(field, fields[field.key] ?? EMPTY[/** @type {"setups"} */ (field.key)], words) }));
  const by = (/** @type {(key: string) => boolean} */ fits) => controls.filter(({ key }) => fits(key)).map(({ element }) => element);
  need("#job-first").replaceChildren(...by((key) => FIRST.includes(key)));
  need("#job-setups").replaceChildren(...by((key) => key === "setups"));
  need("#job-more").replaceChildren(...by((key) => !FIRST.includes(key) && key !== "setups"));
}

/** @returns {Record<string, any>} every field as it stands, kept ones included */
function fields() {
  const now = Object.fromEntries(controls.map(({ key, read }) => [key, read()]));
  const others = Object.fromEntries(NOT_ASKED.filter((key) => key !== "id").map((key) => [key, sheet.fields[key]]));
  return tidy({ ...others, ...now }) ?? {};
}

function typed() {
  remember(draftName(), fields());
  clearTimeout(clock);
  clock = setTimeout(refresh, WAIT_MS);
}

/** Only the newest question is answered. */
async function refresh() {
  asked += 1;
  const mine = asked;
  const job = fields();
  if (!job.material && !job.iso513 && !job.setups) return;
  told.textContent = "Looking through the memory";
  try {
    const reply = await briefs.of(job);
    if (mine !== asked) return;
    told.textContent = reply.ok ? "" : reply.message ?? "";
    if (reply.ok) need("#brief").innerHTML = reply.brief;
  } catch {
    told.textContent = "No brief here just now: Python did not start. Saving works, and the job's page has its brief.";
  }
}

function scale() {
  const by = Number(/** @type {HTMLInputElement} */ (need("#scale-by")).value.replace(",", "."));
  if (!(by > 0.001 && by < 1000)) return void (status.textContent = "Scale by a number such as 1.25 or 0.5.");
  const { fields: larger, left } = scaled(fields(), by);
  fill(larger);
  const missed = left.length ? ` Not scaled, since they are no plain lengths: ${left.join(", ")}.` : "";
  status.textContent = `The part's lengths are ${by} times what they were. Cutters, grip and cutting data are as they were: look at them.${missed}`;
  typed();
}

/** @param {Event} event */
async function save(event) {
  event.preventDefault();
  clearProblems(form);
  status.textContent = "Saving";
  const now = fields();
  const sent = sheet.hash ? await saveJobEdit(sheet.id, sheet.hash, changedKeys(sheet.fields, { ...cleared(), ...now })) : await saveJob(sheet.id, now);
  status.textContent = TOLD[sent.how] ?? "";
  if (sent.how === "invalid") showProblems(form, sent.problems);
  if (sent.how === "refused") status.textContent = `Not saved: ${sent.text}`;
  if (sent.how !== "saved") return;
  saved = true;
  remember(draftName(), null);
  location.assign(address(sent.url));
}

/** Keys that were stored and are empty now are taken away. */
function cleared() {
  return Object.fromEntries(Object.keys(sheet.fields).filter((key) => key !== "id").map((key) => [key, null]));
}

/** @type {Record<string, string>} */
const TOLD = {
  away: "No server took it. It is kept on this device, and the brief beside works without one.",
  missing: "The job is no longer there. What you typed is kept here.",
  conflict: "The job's file was changed elsewhere. What you typed is kept here; open the job anew to see the other version.",
  invalid: "Not saved yet: something in it is not right.",
};
