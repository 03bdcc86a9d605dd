/** The record card: three controls, a draft from the first keystroke, and the lesson's page at once. */
import { Begun } from "./begun.js";
import { showSimilar } from "./echo.js";
import { localTime } from "./ids.js";
import { offerKept } from "./kept.js";
import { showProblems, clearProblems } from "./problems.js";
import { fillCard, readCard, tellWhere } from "./quickform.js";
import { address, need, remember, remembered } from "./site.js";

const form = /** @type {HTMLFormElement} */ (need("#record"));
const status = need("#record-status");
const beside = need("#record-beside");
const note = new Begun("lesson", beside);

/** @returns {Promise<{busy: () => boolean}>} */
export async function start() {
  const job = new URLSearchParams(location.hash.slice(1)).get("job"); // somebody comes from that job's page
  fillCard(form, { ...remembered("last-used"), ...(job ? { job } : {}) });
  form.addEventListener("input", typed);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    save();
  });
  need("#said", form).addEventListener("keydown", submitOnEnter);
  if (readCard(form).kind || readCard(form).said) typed(); // Somebody was quicker than this script.
  window.addEventListener("pageshow", (event) => event.persisted && location.reload());
  await note.bringBack(need("#kept"), show);
  offerKept(need("#kept"));
  return { busy: () => note.busy() };
}

/** @param {KeyboardEvent} event the line is one line: Enter saves, as in any one-line field */
function submitOnEnter(event) {
  if (event.key !== "Enter" || event.isComposing) return;
  event.preventDefault();
  form.requestSubmit();
}

/** What stands in the card; the time is that of the first keystroke, to the second, unless another was put in. */
function fields() {
  const begun = note.draft.fields.when ?? localTime(new Date());
  const card = readCard(form);
  const same = !card.when || card.when.slice(0, 16) === begun.slice(0, 16);
  return { ...card, when: same ? begun : card.when };
}

/** Keeps every keystroke; an emptied card is no draft. */
function typed() {
  const now = fields();
  clearProblems(form);
  tellWhere(form);
  showSimilar(now.said ?? "", need("#similar"));
  if (!now.kind && !now.said && !now.nearly) note.forget();
  else if (!note.write(now)) status.textContent = "This browser keeps nothing: save before you leave this page.";
}

/** @param {Record<string, any>} kept */
function show(kept) {
  form.reset();
  fillCard(form, kept);
  showSimilar(kept.said ?? "", need("#similar"));
  status.textContent = "What you had typed is back. It is not saved yet.";
}

async function save() {
  const now = fields();
  note.write(now);
  form.inert = true;
  status.textContent = "Saving";
  const sent = await note.save(save);
  form.inert = false;
  status.textContent = "";
  remember("last-used", { machine: now.machine, job: now.job });
  AFTER[sent.how](sent);
}

/** @type {Record<string, (sent: any) => void>} */
const AFTER = {
  saved: (sent) => location.assign(address(`${sent.url}#next`)),
  invalid: (sent) => showProblems(form, sent.problems),
  away: () => need(".handover", beside).focus(),
  refused: (sent) => { status.textContent = `Not saved: ${sent.text}. What you typed is kept here.`; },
  missing: () => { status.textContent = "Not saved. What you typed is kept here."; },
  conflict: () => need("button", beside).focus(),
};
