/** The panel that gives a draft out as a file, and the one that offers what an earlier visit kept. */
import { allDrafts, dropDraft, keepDraft } from "./drafts.js";
import { giveOut, handOverFile, waysOut } from "./handover.js";
import { saveEdit, saveLesson } from "./send.js";
import { address, fromTemplate, need } from "./site.js";

/**
 * Shows how to carry a draft home. It stays kept until its writer says that it is safe.
 * @param {import("./drafts.js").Draft} draft
 * @param {HTMLElement} place emptied and filled
 * @param {() => void} done called once the writer said that it is safe
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
  need(".handover__safe", panel).addEventListener("click", () => {
    dropDraft(draft);
    panel.remove();
    done();
  });
  place.replaceChildren(panel);
  panel.focus();
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
 * @param {boolean} writable whether a server takes lessons here
 */
export function offerKept(place, writable) {
  const waiting = allDrafts().filter((draft) => draft.handed);
  for (const draft of waiting) {
    const line = fromTemplate("kept-line");
    need(".kept__said", line).textContent = nameOf(draft);
    need(".kept__send", line).hidden = !writable;
    need(".kept__send", line).addEventListener("click", () => sendKept(draft, line));
    need(".kept__again", line).hidden = writable;
    need(".kept__again", line).addEventListener("click", () => showHandOver(draft, line, () => line.remove()));
    need(".kept__drop", line).addEventListener("click", () => {
      dropDraft(draft);
      line.remove();
    });
    place.append(line);
  }
}

/** @param {import("./drafts.js").Draft} draft */
export function nameOf(draft) {
  if (draft.kind === "edit") return `Changes to lesson ${draft.lesson}: ${Object.keys(draft.fields).join(", ").replaceAll("_", " ")}`;
  return draft.fields.said || "A note without words";
}

/**
 * @param {import("./drafts.js").Draft} draft
 * @param {HTMLElement} line
 */
async function sendKept(draft, line) {
  const told = need(".kept__told", line);
  const sent = draft.kind === "edit"
    ? await saveEdit(draft.lesson ?? "", draft.base ?? "", draft.fields)
    : await saveLesson(draft.id, draft.fields);
  if (sent.how === "saved") {
    dropDraft(draft);
    location.assign(address(sent.url));
  } else {
    told.textContent = WHY_NOT[sent.how];
  }
}

/** Why a kept draft was not taken; it stays kept in every case. */
const WHY_NOT = {
  away: "No server answered. It stays kept here.",
  conflict: "The lesson was changed meanwhile. It stays kept here; open the lesson to compare.",
  invalid: "Something in it is not right yet. It stays kept here.",
  missing: "The lesson it belongs to is not here. It stays kept.",
  refused: "The server would not take it. It stays kept here.",
};
