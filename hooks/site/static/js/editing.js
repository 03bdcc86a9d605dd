/** One lesson being edited: what is stored, what was changed here, and saving without losing either. */
import { applied, changedKeys, clashes } from "./changes.js";
import { showConflict } from "./conflict.js";
import { allDrafts, dropDraft, keepDraft, newDraft, takeOver } from "./drafts.js";
import { showHandOver } from "./kept.js";
import { saveEdit } from "./send.js";
import { data } from "./site.js";
import { meetTabs } from "./tabs.js";

/**
 * Opens an edit; a draft that an earlier visit left, or that this tab had before a reload, is gone on with.
 * @param {{id: string, hash: string, fields: Record<string, any>}} lesson
 * @param {{key: string, label: string}[]} declared
 * @param {HTMLElement} beside where conflicts and hand-overs show
 */
export async function openEdit(lesson, declared, beside) {
  const { tab, open } = await meetTabs();
  const kept = allDrafts().find((one) => one.kind === "edit" && one.lesson === lesson.id && !open.has(one.tab));
  const draft = kept ?? fresh(lesson, tab);
  if (kept) takeOver(kept, tab);
  return new Editing(lesson, draft, declared, beside);
}

/** @param {{id: string, hash: string, fields: Record<string, any>}} lesson @param {string} tab */
function fresh(lesson, tab) {
  return { ...newDraft("edit", tab), lesson: lesson.id, base: lesson.hash, was: lesson.fields };
}

export class Editing {
  /**
   * @param {{id: string, hash: string, fields: Record<string, any>}} lesson
   * @param {import("./drafts.js").Draft} draft
   * @param {{key: string, label: string}[]} declared
   * @param {HTMLElement} beside
   */
  constructor(lesson, draft, declared, beside) {
    this.id = lesson.id;
    this.lesson = lesson;
    this.draft = draft;
    this.declared = declared;
    this.beside = beside;
    this.broughtBack = draft.at > 0;
  }

  /** @returns {Record<string, any>} as stored, when this page last heard of it */
  fields() {
    return this.lesson.fields;
  }

  /** @returns {Record<string, any>} what was changed here and is not stored yet */
  changes() {
    return this.draft.fields;
  }

  /** @param {Record<string, any>} some values of some keys, kept at once */
  change(some) {
    this.replace(changedKeys(this.fields(), { ...this.draft.fields, ...some }));
  }

  /** @param {Record<string, any>} changes all of them */
  replace(changes) {
    this.draft.fields = changes;
    if (Object.keys(changes).length) keepDraft(this.draft);
    else dropDraft(this.draft);
  }

  /** @returns {Promise<import("./send.js").Outcome>} nothing is dropped unless the outcome is "saved" */
  async save() {
    if (!Object.keys(this.draft.fields).length) return this.nothingToSave();
    const sent = await saveEdit(this.id, this.draft.base ?? "", this.draft.fields);
    if (sent.how === "saved") this.stored(sent.hash);
    if (sent.how === "away") showHandOver(this.draft, this.beside, () => location.reload());
    if (sent.how === "conflict") return this.meet(sent);
    return sent;
  }

  /** @returns {import("./send.js").Outcome} */
  nothingToSave() {
    return { how: "saved", id: this.id, hash: this.lesson.hash, url: `lessons/${this.id}/` };
  }

  /** @param {string} hash */
  stored(hash) {
    dropDraft(this.draft);
    this.lesson = { ...this.lesson, hash, fields: applied(this.lesson.fields, this.draft.fields) };
    this.draft = fresh(this.lesson, this.draft.tab);
    this.beside.replaceChildren();
  }

  /**
   * Somebody stored another version meanwhile. Where it touches other keys, both hold; else both are shown.
   * @param {import("./send.js").Outcome} sent
   * @returns {Promise<import("./send.js").Outcome>}
   */
  async meet(sent) {
    const now = await data(`data/lesson/${this.id}.json`);
    if (!now || now.hash === this.draft.base) return sent;
    const both = clashes(this.draft.was ?? {}, now.fields, this.draft.fields);
    if (!both.length) return this.goOnFrom(now, this.draft.fields);
    const label = (/** @type {string} */ key) => this.declared.find((field) => field.key === key)?.label ?? key;
    const shown = both.map((key) => ({ key, label: label(key), stored: now.fields[key], yours: this.draft.fields[key] }));
    return new Promise((resolve) => {
      showConflict(this.beside, shown, (mine) => {
        const kept = Object.entries(this.draft.fields).filter(([key]) => !both.includes(key) || mine.has(key));
        resolve(this.goOnFrom(now, Object.fromEntries(kept)));
      });
    });
  }

  /** @param {any} now the lesson as stored @param {Record<string, any>} changes */
  goOnFrom(now, changes) {
    this.lesson = now;
    Object.assign(this.draft, { base: now.hash, was: now.fields });
    this.replace(changes);
    this.beside.replaceChildren();
    return this.save();
  }
}
