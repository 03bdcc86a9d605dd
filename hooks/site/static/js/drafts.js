/**
 * What was typed and is not yet safe elsewhere, kept in localStorage from the first keystroke.
 *
 * One entry a draft, so that two tabs never write over each other's. Every entry names the tab that
 * writes it; a tab that finds its entry taken over by another goes on under a new name.
 */
import { newLessonId } from "./ids.js";
import { storageKey } from "./site.js";

/**
 * @typedef {object} Draft
 * @property {string} id     of the draft; of a new lesson or job, its id
 * @property {import("./kinds.js").Kind} kind
 * @property {string} tab    the tab that writes it
 * @property {number} at     milliseconds, last keystroke
 * @property {Record<string, any>} fields  of a new lesson or job, or the changed keys of an edit
 * @property {string} [of]      id of what an edit changes
 * @property {string} [base]    content hash the edit began from
 * @property {Record<string, any>} [was]  the fields as they stood at `base`, the changed ones at least
 * @property {boolean} [handed] given out as a file as it is now, kept until told that it is safe
 */

const PREFIX = () => storageKey("draft:");

/** @returns {string} this tab's name: the same after a reload, another after closing */
export function tabName() {
  const key = storageKey("tab");
  const name = sessionStorage.getItem(key) ?? newLessonId();
  sessionStorage.setItem(key, name);
  return name;
}

/**
 * @param {import("./kinds.js").Kind} kind
 * @param {string} tab
 * @returns {Draft}
 */
export function newDraft(kind, tab) {
  return { id: newLessonId(), kind, tab, at: 0, fields: {} };
}

/**
 * @param {string} id
 * @param {Storage} [store]
 * @returns {Draft | null}
 */
export function readDraft(id, store = localStorage) {
  try {
    const draft = JSON.parse(store.getItem(PREFIX() + id) ?? "null");
    if (draft?.lesson) draft.of = draft.lesson; // as drafts of old name it
    return draft;
  } catch {
    return null;
  }
}

/**
 * Keeps the draft. Where another tab has taken its entry over, this one goes on under a new id, so
 * that neither writes over the other.
 * @param {Draft} draft
 * @param {Storage} [store]
 * @returns {boolean} false where this browser keeps nothing
 */
export function keepDraft(draft, store = localStorage) {
  const stored = readDraft(draft.id, store);
  if (stored && stored.tab !== draft.tab) draft.id = newLessonId();
  draft.at = Date.now();
  try {
    store.setItem(PREFIX() + draft.id, JSON.stringify(draft));
    return true;
  } catch {
    return false;
  }
}

/**
 * @param {Draft} draft
 * @param {string} tab the tab that goes on with it
 * @param {Storage} [store]
 */
export function takeOver(draft, tab, store = localStorage) {
  draft.tab = tab;
  store.setItem(PREFIX() + draft.id, JSON.stringify(draft));
}

/**
 * @param {Draft} draft only once it is safe elsewhere, or its writer threw it away
 * @param {Storage} [store]
 */
export function dropDraft(draft, store = localStorage) {
  store.removeItem(PREFIX() + draft.id);
}

/**
 * @param {Storage} [store]
 * @returns {Draft[]} every draft kept here, newest first
 */
export function allDrafts(store = localStorage) {
  const prefix = PREFIX();
  const keys = Array.from({ length: store.length }, (_, place) => store.key(place) ?? "");
  const drafts = keys.filter((key) => key.startsWith(prefix)).map((key) => readDraft(key.slice(prefix.length), store));
  return /** @type {Draft[]} */ (drafts.filter(Boolean)).sort((one, other) => other.at - one.at);
}
