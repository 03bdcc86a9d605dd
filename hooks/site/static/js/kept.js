/** The panel that gives a draft out as a file, and the one that offers what an earlier visit kept. */
import { allDrafts, dropDraft, keepDraft } from "./drafts.js";
import { giveOut, handOverFile, waysOut } from "./handover.js";
import { KINDS } from "./kinds.js";
import { saveMet } from "./meeting.js";
import { hello } from "./send.js";
import { address, fromTemplate, need } from "./site.js";

/**
 * Shows how to carry a draft home. It stays kept until its writer says that it is safe.
 * @param {import("./drafts.js").Draft} draft
 * @param {HTMLElement} place emptied and filled
 * @param {() => void} done called once the writer said that it is safe
 * @returns {HTMLElement} the panel; it takes the focus, should that be wanted
 */
export function showHandOver(draft, place, done) {
  const panel = fromTemplate("handover-panel");
  const ways = waysOut();
  need(".handover__file", panel).textContent = handOverFile(draft).name;
  for (const button of panel.querySelectorAll("[data-way]")) {
    const way = /** @type {"share"|"pick"|"download"} */ (/** @type {HTMLElement} */ (button).dataset.way);
    /** @type {HTMLElement} */ (button).hidden = way !== "download" && !ways[way];
    button.addEventListener("click", () => give(way, draft, panel));
  }
  need(".handover__after", panel).hidden = !draft.handed;
  need(".handover__safe", panel).addEventListener("click", () => {
    if (!draft.handed) return tellChanged(panel);
    dropDraft(draft);
    panel.remove();
    done();
  });
  place.replaceChildren(panel);
  return panel;
}

/** What arrived is not all that is kept. @param {HTMLElement} panel */
function tellChanged(panel) {
  need(".handover__after", panel).hidden = true;
  need(".handover__told", panel).textContent = "It was changed after you gave it out. Give it out once more.";
}

/**
 * @param {"share"|"pick"|"download"} way
 * @param {import("./drafts.js").Draft} draft
 * @param {HTMLElement} panel
 */
async function give(way, draft, panel) {
  const told = need(".handover__told", panel);
  try {
    if (!(await giveOut(way, draft))) return;
    draft.handed = true;
    keepDraft(draft);
    need(".handover__after", panel).hidden = false;
  } catch {
    told.textContent = "That way did not work here. Try the download.";
  }
}

/**
 * Shows what earlier visits kept and gave out: to be sent where a server is, else to be given out again.
 * @param {HTMLElement} place
 * @param {string} [except] id of the draft that this page itself goes on with
 */
export async function offerKept(place, except) {
  const writable = Boolean((await hello())?.writable);
  for (const draft of allDrafts().filter(({ handed, id }) => handed && id !== except)) {
    const line = fromTemplate("kept-line");
    need(".kept__said", line).textContent = nameOf(draft);
    need(".kept__send", line).hidden = !writable;
    need(".kept__send", line).addEventListener("click", () => sendKept(draft, line));
    need(".kept__again", line).hidden = writable;
    need(".kept__again", line).addEventListener("click", () => showHandOver(draft, line, () => line.remove()).focus());
    need(".kept__drop", line).addEventListener("click", () => {
      dropDraft(draft);
      line.remove();
    });
    place.append(line);
  }
}

/** @param {import("./drafts.js").Draft} draft @returns {string} what it is, in a few words */
export function nameOf({ kind, of, was, fields }) {
  const { name, edits } = KINDS[kind];
  const words = (/** @type {any} */ some) => some?.title ?? some?.said ?? some?.part ?? some?.name;
  if (!edits) return words(fields) ?? (name === "lesson" ? "A note without words" : "A job without a name");
  const keys = Object.keys(fields).map((key) => key.replaceAll("_", " ")).join(", ");
  return `Changes to ${name} ${words(was) ?? of}: ${keys}`;
}

/**
 * @param {import("./drafts.js").Draft} draft
 * @param {HTMLElement} line
 */
async function sendKept(draft, line) {
  const sent = await saveMet(draft);
  if (sent.how === "saved") {
    dropDraft(draft);
    location.assign(address(sent.url));
  } else {
    need(".kept__told", line).textContent = WHY_NOT[sent.how];
  }
}

/** Why a kept draft was not taken; it stays kept in every case. */
const WHY_NOT = {
  away: "No server answered. It stays kept here.",
  conflict: "The same was changed there meanwhile. It stays kept here; open it for changing, to compare.",
  invalid: "Something in it is not right yet. It stays kept here.",
  missing: "What it belongs to is not here. It stays kept.",
  refused: "The server would not take it. It stays kept here.",
};
