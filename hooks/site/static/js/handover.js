/** What was drafted as a file to carry home, where no server can take it. */
import { KINDS } from "./kinds.js";

/**
 * The hand-over as `run.py receive` reads it. Pure.
 * @param {import("./drafts.js").Draft} draft
 * @returns {Record<string, any>}
 */
export function handOver(draft) {
  const { id, kind, of, base, was = {}, fields } = draft;
  if (!KINDS[kind].edits) return { twice_shy: 1, kind, id, fields };
  const before = Object.fromEntries(Object.keys(fields).map((key) => [key, was[key] ?? null]));
  const which = kind === "settings" ? {} : { id: of }; // a shop has but one shop.yaml
  return { twice_shy: 1, kind, ...which, base, was: before, changes: fields };
}

/**
 * Named by the draft: facts of a job and answers to it may both be on their way, and neither may take the other's place.
 * @param {import("./drafts.js").Draft} draft
 * @returns {File}
 */
export function handOverFile(draft) {
  const name = `${draft.kind}-${draft.id}.json`;
  return new File([JSON.stringify(handOver(draft), null, 1)], name, { type: "application/json" });
}

/** @returns {{share: boolean, pick: boolean}} which ways out this browser has besides the download */
export function waysOut() {
  const probe = new File(["{}"], "handed.json", { type: "application/json" });
  return {
    share: Boolean(navigator.canShare?.({ files: [probe] })),
    pick: "showSaveFilePicker" in window,
  };
}

/**
 * Gives the draft out. Needs a tap just before: browsers demand it.
 * @param {"share"|"pick"|"download"} way
 * @param {import("./drafts.js").Draft} draft
 * @returns {Promise<boolean>} false where the person turned back
 */
export async function giveOut(way, draft) {
  const file = handOverFile(draft);
  try {
    await { share, pick, download }[way](file);
    return true;
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") return false;
    throw error;
  }
}

/** @param {File} file */
async function share(file) {
  await navigator.share({ files: [file], title: file.name });
}

/** @param {File} file */
async function pick(file) {
  const picked = await /** @type {any} */ (window).showSaveFilePicker({ suggestedName: file.name });
  const out = await picked.createWritable();
  await out.write(file);
  await out.close();
}

/** @param {File} file */
async function download(file) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}
