/** The record card: three controls, a draft from the first keystroke, and the lesson's page at once. */
import { allDrafts, dropDraft, keepDraft, newDraft, tabName, takeOver } from "./drafts.js";
import { localTime, newLessonId } from "./ids.js";
import { nameOf, offerKept, showHandOver } from "./kept.js";
import { showProblems, clearProblems } from "./problems.js";
import { fillCard, readCard, tellWhere } from "./quickform.js";
import { hello, saveLesson } from "./send.js";
import { showSimilar } from "./echo.js";
import { address, fromTemplate, need, remember, remembered } from "./site.js";
import { meetTabs } from "./tabs.js";

const form = /** @type {HTMLFormElement} */ (need("#record"));
const status = need("#record-status");
const beside = need("#record-beside");
let draft = newDraft("lesson", tabName());

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
  const { tab, open } = await meetTabs();
  if (draft.at) takeOver(draft, tab);
  draft.tab = tab;
  bringBack(open);
  hello().then((server) => offerKept(need("#kept"), Boolean(server?.writable)));
  return { busy: () => Boolean(draft.at) };
}

/** @param {KeyboardEvent} event the line is one line: Enter saves, as in any one-line field */
function submitOnEnter(event) {
  if (event.key !== "Enter" || event.isComposing) return;
  event.preventDefault();
  form.requestSubmit();
}

/** What stands in the card; the time is that of the first keystroke, to the second, unless another was put in. */
function fields() {
  const begun = draft.fields.when ?? localTime(new Date());
  const card = readCard(form);
  const same = !card.when || card.when.slice(0, 16) === begun.slice(0, 16);
  return { ...card, when: same ? begun : card.when };
}

/** Keeps every keystroke; an emptied card is no draft. */
function typed() {
  if (!draft.at) draft.id = newLessonId(); // of the first keystroke, not of the hour the page was opened
  draft.fields = fields();
  const { kind, said, nearly } = draft.fields;
  clearProblems(form);
  tellWhere(form);
  showSimilar(said ?? "", need("#similar"));
  if (!kind && !said && !nearly) forget();
  else if (!keepDraft(draft)) status.textContent = "This browser keeps nothing: save before you leave this page.";
}

function forget() {
  dropDraft(draft);
  draft = newDraft("lesson", draft.tab);
}

/**
 * Brings back this tab's draft, or the newest whose tab is closed; others are offered.
 * @param {Set<string>} open names of the other open tabs
 */
function bringBack(open) {
  const waiting = allDrafts().filter((kept) => kept.kind === "lesson" && !kept.handed && kept.id !== draft.id);
  const free = waiting.filter((kept) => !open.has(kept.tab));
  const mine = free.find((kept) => kept.tab === draft.tab) ?? free[0];
  if (mine && !draft.at) goOn(mine);
  free.filter((kept) => kept.id !== draft.id).forEach(offerDraft);
}

/** @param {import("./drafts.js").Draft} kept */
function goOn(kept) {
  takeOver(kept, draft.tab);
  draft = kept;
  form.reset();
  fillCard(form, kept.fields);
  showSimilar(kept.fields.said ?? "", need("#similar"));
  status.textContent = "What you had typed is back. It is not saved yet.";
}

/** @param {import("./drafts.js").Draft} kept */
function offerDraft(kept) {
  const line = fromTemplate("draft-line");
  need(".kept__said", line).textContent = nameOf(kept);
  need(".kept__go-on", line).addEventListener("click", () => {
    line.remove();
    if (draft.at) offerDraft(draft);
    goOn(kept);
  });
  need(".kept__drop", line).addEventListener("click", () => {
    dropDraft(kept);
    line.remove();
  });
  need("#kept").append(line);
}

async function save() {
  draft.fields = fields();
  keepDraft(draft);
  form.inert = true;
  status.textContent = "Saving";
  const sent = await saveLesson(draft.id, draft.fields);
  form.inert = false;
  status.textContent = "";
  remember("last-used", { machine: draft.fields.machine, job: draft.fields.job });
  AFTER[sent.how](sent);
}

/** @type {Record<string, (sent: any) => void>} */
const AFTER = {
  saved(sent) {
    dropDraft(draft);
    location.assign(address(`${sent.url}#next`));
  },
  invalid: (sent) => showProblems(form, sent.problems),
  away: () => showHandOver(draft, beside, () => location.reload()),
  refused: (sent) => { status.textContent = `Not saved: ${sent.text}. What you typed is kept here.`; },
  missing: () => { status.textContent = "Not saved. What you typed is kept here."; },
  conflict() {
    const panel = fromTemplate("second-lesson");
    need("a", panel).setAttribute("href", address(`lessons/${draft.id}/`));
    need("button", panel).addEventListener("click", () => {
      dropDraft(draft);
      draft.id = newLessonId();
      panel.remove();
      save();
    });
    beside.replaceChildren(panel);
  },
};
