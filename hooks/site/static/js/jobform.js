/** Describing a job: one form, made from the declaration; the brief follows every change. */
import { Begun } from "./begun.js";
import { tidy } from "./changes.js";
import { control } from "./controls.js";
import { openEdit } from "./editing.js";
import { offerKept } from "./kept.js";
import { briefNow, briefSoon } from "./livebrief.js";
import { clearProblems, showProblems } from "./problems.js";
import { scaled } from "./scaled.js";
import { address, data, need } from "./site.js";

const NOT_ASKED = ["id", "held", "copied_from"];
const FIRST = ["part", "material", "iso513", "machine"];
/** A new sheet begins with one set-up and one operation in it. */
const EMPTY = { setups: [{ operations: [{}] }] };

const form = /** @type {HTMLFormElement} */ (need("#job-form"));
const status = need("#job-form-status");
const beside = need("#job-form-beside");

/** @type {any} the declaration */
let declared;
/** @type {{key: string, element: HTMLElement, read: () => any}[]} */
let controls = [];
/** @type {Begun | import("./editing.js").Editing} a new sheet, or changes to one */
let work;
/** @type {Record<string, any>} what a new sheet has beside what is asked */
let unasked = {};

/** @returns {Promise<{busy: () => boolean, watch: boolean}>} */
export async function start() {
  const wanted = new URLSearchParams(location.hash.slice(1));
  window.addEventListener("hashchange", () => /[#&](id|copy)=/.test(location.hash) && location.reload());
  declared = await data("data/declaration.json");
  const [id, copy] = [wanted.get("id"), wanted.get("copy")];
  const other = id ?? copy;
  const found = other && /^[0-9a-z-]+$/.test(other) ? await data(`data/job/${other}.json`) : null;
  if (other && !found) status.textContent = "There is no such job here. This is a new sheet.";
  form.addEventListener("submit", save);
  need("#job-scale").hidden = !copy;
  need("#scale-now").addEventListener("click", scale);
  await (id && found ? change(found) : begin(found));
  offerKept(need("#kept"), work.draft.id);
  briefNow(job);
  return { busy: () => work.busy(), watch: false };
}

/** @param {import("./editing.js").Stored} stored */
async function change(stored) {
  const facts = declared.job_fields.filter((/** @type {any} */ { key }) => key !== "held"); // answered on the job's page
  const editing = await openEdit("job-edit", stored, facts, beside);
  work = editing;
  fill({ ...stored.fields, ...editing.changes() });
  form.addEventListener("input", typed);
  if (editing.broughtBack) status.textContent = BACK;
}

/** @param {import("./editing.js").Stored | null} model the job that it is a copy of */
async function begin(model) {
  const sheet = new Begun("job", beside);
  work = sheet;
  unasked = model ? { copied_from: model.id } : {};
  fill({ ...tidy({ ...model?.fields, id: null, held: null }), ...unasked });
  form.addEventListener("input", typed);
  await sheet.bringBack(need("#kept"), show, (kept) => kept.fields.copied_from === unasked.copied_from);
}

/** @param {Record<string, any>} kept what an earlier visit typed into a new sheet */
function show(kept) {
  unasked = kept.copied_from ? { copied_from: kept.copied_from } : {};
  fill(kept);
  status.textContent = BACK;
  briefNow(job);
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

/** @returns {Record<string, any>} every field that is asked as it stands, null where it is empty */
function fields() {
  return { ...unasked, ...Object.fromEntries(controls.map(({ key, read }) => [key, tidy(read())])) };
}

/** @returns {Record<string, any>} the same without what is empty */
function job() {
  return tidy(fields()) ?? {};
}

function keep() {
  if (!work.write(work instanceof Begun ? job() : fields())) status.textContent = "This browser keeps nothing: save before you leave this page.";
}

function typed() {
  keep();
  clearProblems(form);
  briefSoon(job);
}

function scale() {
  const by = Number(/** @type {HTMLInputElement} */ (need("#scale-by")).value.replace(",", "."));
  if (!(by > 0.001 && by < 1000)) return void (status.textContent = "Scale by a number such as 1.25 or 0.5.");
  const { fields: larger, left } = scaled(job(), by);
  fill(larger);
  const missed = left.length ? ` Not scaled, since they are no plain lengths: ${left.join(", ")}.` : "";
  status.textContent = `The part's lengths are ${by} times what they were. Cutters, grip and cutting data are as they were: look at them.${missed}`;
  typed();
}

/** @param {Event} [event] */
async function save(event) {
  event?.preventDefault();
  clearProblems(form);
  status.textContent = "Saving";
  keep();
  form.inert = true;
  const sent = await work.save(save);
  form.inert = false;
  status.textContent = sent.how === "refused" ? `Not saved: ${sent.text}` : TOLD[sent.how] ?? "";
  if (sent.how === "invalid") showProblems(form, sent.problems);
  if (sent.how === "away") need(".handover", beside).focus();
  if (sent.how === "conflict") beside.querySelector("button")?.focus();
  if (sent.how === "saved") location.assign(address(sent.url));
}

const BACK = "What you had typed is back. It is not saved yet.";

/** @type {Record<string, string>} */
const TOLD = {
  away: "No server took it. It is kept on this device, and the brief beside works without one.",
  missing: "The job is no longer there. What you typed is kept here.",
  conflict: "Not saved yet: another version is stored. What you typed is kept here.",
  invalid: "Not saved yet: something in it is not right.",
};
