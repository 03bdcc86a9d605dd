/** Describing a job: one form, made from the declaration; the brief follows every change. */
import { Aside } from "./aside.js";
import { Begun } from "./begun.js";
import { BriefBeside } from "./beside.js";
import { tidy } from "./changes.js";
import { openEdit } from "./editing.js";
import { beginning } from "./jobbegin.js";
import { JobBoxes } from "./jobboxes.js";
import { boxOf, moreCutters, offerCutters } from "./jobkeep.js";
import { askForLacking } from "./keep.js";
import { offerKept } from "./kept.js";
import { watchNumbers } from "./numbers.js";
import { clearProblems, showProblems } from "./problems.js";
import { scaledBy } from "./scaled.js";
import { address, data, need } from "./site.js";

const form = /** @type {HTMLFormElement} */ (need("#job-form"));
const status = need("#job-form-status");
const beside = need("#job-form-beside");
const brief = new BriefBeside((place, of) => askForLacking(place, { job: of, declared, goTo: (fact, at) => boxOf(form, fact, at), kept: renew }));

const BACK = "What you had typed is back. It is not saved yet.";

/** @type {any} the declaration */
let declared;
/** @type {JobBoxes} */
let boxes;
/** @type {Begun | import("./editing.js").Editing} a new sheet, or changes to one */
let work;

/** @returns {Promise<{busy: () => boolean, watch: boolean}>} */
export async function start() {
  const wanted = new URLSearchParams(location.hash.slice(1));
  window.addEventListener("hashchange", () => /[#&](id|copy|sheet)=/.test(location.hash) && location.reload());
  brief.ready();
  form.inert = true; // until what was begun before is back
  declared = await data("data/declaration.json");
  boxes = new JobBoxes(declared);
  const from = await beginning(wanted, declared);
  status.textContent = from.said;
  need("#job-scale").hidden = !wanted.get("copy");
  need("#scale-now").addEventListener("click", scale);
  await (from.stored ? change(from.stored) : begin(from));
  form.inert = false;
  form.addEventListener("submit", save);
  form.addEventListener("input", typed);
  watchNumbers(form, brief.python);
  form.addEventListener("change", () => offerCutters(job, declared, renew));
  offerKept(need("#kept"), work.draft.id);
  brief.follow(job());
  return { busy: () => work.busy(), watch: false };
}

/** @param {import("./editing.js").Stored} stored */
async function change(stored) {
  const facts = declared.job_fields.filter((/** @type {any} */ { key }) => key !== "held"); // answered on the job's page
  const editing = await openEdit("job-edit", stored, facts, beside);
  work = editing;
  boxes.fill({ ...stored.fields, ...editing.changes() });
  offerAnew(stored.fields, "Back to what is stored");
  if (editing.broughtBack) status.textContent = BACK;
}

/** @param {import("./jobbegin.js").Beginning} from */
async function begin({ first, label, fits }) {
  const sheet = new Begun("job", beside);
  work = sheet;
  boxes.fill(first);
  await sheet.bringBack(need("#kept"), show, fits);
  offerAnew(first, label);
}

/** @param {Record<string, any>} first @param {string} label */
function offerAnew(first, label) {
  const typedNow = () => (work.busy() ? job() : null);
  new Aside({ name: `job:${label}:${work.draft.of ?? ""}`, label, typed: typedNow, show: (kept) => (kept ? show(kept) : restart(first)) });
}

/** @param {Record<string, any>} first */
function restart(first) {
  if (work instanceof Begun) work.forget();
  else work.replace({});
  boxes.fill(first);
  status.textContent = "What you had typed is put aside; one tap brings it back.";
  brief.follow(job());
}

/** @param {Record<string, any>} kept what was typed before */
function show(kept) {
  boxes.fill(kept);
  keep();
  status.textContent = BACK;
  brief.follow(job());
}

/** @returns {Record<string, any>} the sheet as it stands, without what is empty */
function job() {
  return tidy(boxes.read()) ?? {};
}

function keep() {
  if (!work.write(work instanceof Begun ? job() : boxes.read())) status.textContent = "This browser keeps nothing: save before you leave this page.";
}

function typed() {
  keep();
  brief.soon(job);
}

/** The shop's list holds more than before. */
function renew() {
  moreCutters(form, declared);
  brief.anew(job());
}

function scale() {
  const { fields, said } = scaledBy(job(), /** @type {HTMLInputElement} */ (need("#scale-by")).value);
  status.textContent = said;
  if (!fields) return;
  boxes.fill(fields);
  typed();
}

/** @param {Event} [event] */
async function save(event) {
  event?.preventDefault();
  clearProblems(form);
  status.textContent = "Saving";
  keep();
  form.inert = true;
  const sent = await work.save(save).finally(() => (form.inert = false));
  status.textContent = sent.how === "refused" ? `Not saved: ${sent.text}` : TOLD[sent.how] ?? "";
  if (sent.how === "invalid") showProblems(form, sent.problems);
  if (sent.how === "away") need(".handover", beside).focus();
  if (sent.how === "conflict") beside.querySelector("button")?.focus();
  if (sent.how === "saved") location.assign(address(sent.url));
}

/** @type {Record<string, string>} */
const TOLD = {
  away: "No server took it. It is kept on this device, and the brief beside works without one.",
  missing: "The job is no longer there. What you typed is kept here.",
  conflict: "Not saved yet: another version is stored. What you typed is kept here.",
  invalid: "Not saved yet: something in it is not right.",
};
