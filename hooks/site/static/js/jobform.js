/** Describing a job: one form, made from the declaration; the brief follows every change. */
import { Aside } from "./aside.js";
import { BriefBeside } from "./beside.js";
import { changedKeys, tidy } from "./changes.js";
import { control } from "./controls.js";
import { newLessonId } from "./ids.js";
import { watchNumbers } from "./numbers.js";
import { clearProblems, showProblems } from "./problems.js";
import { scaled } from "./scaled.js";
import { saveJob, saveJobEdit } from "./send.js";
import { address, data, need, remember, remembered } from "./site.js";

const BACK = "What you had typed is back. It is not saved yet.";
const NOT_ASKED = ["id", "held", "copied_from"];
const FIRST = ["part", "material", "iso513", "machine"];
/** A new sheet begins with one set-up and one operation in it. */
const EMPTY = { setups: [{ operations: [{}] }] };

const form = /** @type {HTMLFormElement} */ (need("#job-form"));
const status = need("#job-form-status");
const beside = new BriefBeside();

/** @type {any} the declaration */
let declared;
/** @type {{key: string, element: HTMLElement, read: () => any}[]} */
let controls = [];
/** @type {{id: string, hash: string, fields: Record<string, any>}} what is stored, or is to be */
let sheet = { id: "", hash: "", fields: {} };
let saved = false;

/** @returns {Promise<{busy: () => boolean, watch: boolean}>} */
export async function start() {
  const wanted = new URLSearchParams(location.hash.slice(1));
  window.addEventListener("hashchange", () => /[#&](id|copy)=/.test(location.hash) && location.reload());
  declared = await data("data/declaration.json");
  sheet = await begun(wanted.get("id"), wanted.get("copy"));
  const kept = remembered(draftName());
  fill(kept ?? sheet.fields);
  if (kept) status.textContent = BACK;
  new Aside({ draft: draftName(), label: beginning(), read: fields, show });
  need("#job-scale").hidden = !wanted.get("copy");
  need("#scale-now").addEventListener("click", scale);
  watchNumbers(form, beside.python);
  form.addEventListener("input", typed);
  form.addEventListener("submit", save);
  beside.follow(fields());
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

/** A copy has a draft of its own: a half-typed new sheet must not come in its place. */
function draftName() {
  const { copied_from: model } = sheet.fields;
  return `job:${sheet.hash ? sheet.id : model ? `copy of ${model}` : "new"}`;
}

function beginning() {
  return sheet.hash ? "Back to what is stored" : sheet.fields.copied_from ? "Begin with the copy" : "Begin empty";
}

/** @param {Record<string, any> | null} typed */
function show(typed) {
  fill(typed ?? sheet.fields);
  status.textContent = typed ? BACK : "What you had typed is put aside; one tap brings it back.";
  beside.follow(fields());
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
  beside.soon(fields);
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
