/** Something stored that is being edited: what is stored, what was changed here, and saving without losing either. */
import { changedKeys, meet, namedLists, sameValue } from "./changes.js";
import { showConflict } from "./conflict.js";
import { allDrafts, dropDraft, keepDraft, newDraft, takeOver } from "./drafts.js";
import { showHandOver } from "./kept.js";
import { saveMet } from "./meeting.js";
import { meetTabs } from "./tabs.js";

/**
 * @typedef {Record<string, any>} Fields
 * @typedef {{id: string, hash: string, fields: Fields}} Stored
 * @typedef {{key: string, label: string, by?: string}[]} Declared  the fields that this page edits
 * @typedef {"edit"|"job-edit"|"settings"} EditKind
 */

/**
 * Opens an edit; a draft that an earlier visit left, or that this tab had before a reload, is gone on with.
 * @param {EditKind} kind
 * @param {Stored} stored
 * @param {Declared} declared
 * @param {HTMLElement} beside where conflicts and hand-overs show
 */
export async function openEdit(kind, stored, declared, beside) {
  const { tab, open } = await meetTabs();
  const ours = new Set(declared.map(({ key }) => key));
  const kept = allDrafts().find((one) => one.kind === kind && one.of === stored.id && !open.has(one.tab)
    && Object.keys(one.fields).every((key) => ours.has(key)));
  if (kept) takeOver(kept, tab);
  return new Editing(stored, kept ?? fresh(kind, stored, tab), declared, beside);
}

/** @param {import("./kinds.js").Kind} kind @param {Stored} stored @param {string} tab */
function fresh(kind, stored, tab) {
  return { ...newDraft(kind, tab), of: stored.id, base: stored.hash, was: stored.fields };
}

export class Editing {
  /**
   * @param {Stored} stored
   * @param {import("./drafts.js").Draft} draft
   * @param {Declared} declared
   * @param {HTMLElement} beside
   */
  constructor(stored, draft, declared, beside) {
    this.id = stored.id;
    this.stored = stored;
    this.draft = draft;
    this.declared = declared;
    this.beside = beside;
    this.broughtBack = draft.at > 0;
    /** @type {Promise<any>} one save after the other */
    this.saving = Promise.resolve();
  }

  /** @returns {Fields} as stored, when this page last heard of it */
  fields() {
    return this.stored.fields;
  }

  /** @returns {Fields} what was changed here and is not stored yet */
  changes() {
    return this.draft.fields;
  }

  /** @returns {boolean} whether something was changed here that is not stored */
  busy() {
    return Object.keys(this.draft.fields).length > 0;
  }

  /**
   * @param {Fields} some values of some keys, kept at once
   * @returns {boolean} false where this browser keeps nothing
   */
  write(some) {
    return this.replace(changedKeys(this.fields(), { ...this.draft.fields, ...some }));
  }

  /** @param {Fields} changes all of them @returns {boolean} */
  replace(changes) {
    Object.assign(this.draft, { fields: changes, handed: false });
    if (this.busy()) return keepDraft(this.draft);
    dropDraft(this.draft);
    return true;
  }

  /** @returns {Promise<import("./meeting.js").Met>} nothing is dropped unless the outcome is "saved" */
  save() {
    this.saving = this.saving.then(() => this.send());
    return this.saving;
  }

  /** @returns {Promise<import("./meeting.js").Met>} */
  async send() {
    const asked = this.draft.fields;
    const sent = await saveMet(this.draft);
    if (sent.how === "saved") this.settle(asked, sent.hash, sent.fields ?? {});
    if (sent.how === "away") showHandOver(this.draft, this.beside, () => location.reload());
    return sent.how === "conflict" && sent.clashing ? this.choose(sent.clashing, sent.now ?? {}) : sent;
  }

  /**
   * All that was asked for is stored. What was changed here while it was on its way stays a change.
   * @param {Fields} asked @param {string} hash @param {Fields} fields
   */
  settle(asked, hash, fields) {
    const since = [...new Set([...Object.keys(asked), ...Object.keys(this.draft.fields)])];
    const [then, now] = [asked, this.draft.fields].map((changes) =>
      Object.fromEntries(since.map((key) => [key, key in changes ? changes[key] : this.fields()[key] ?? null])));
    const typed = Object.fromEntries(since.filter((key) => !sameValue(then[key], now[key])).map((key) => [key, now[key]]));
    dropDraft(this.draft);
    this.stored = { id: this.id, hash, fields };
    this.draft = fresh(this.draft.kind, this.stored, this.draft.tab);
    this.beside.replaceChildren();
    this.replace(meet(then, fields, typed, namedLists(this.declared)).changes);
  }

  /**
   * Both sides changed the same: both are shown until one is chosen.
   * @param {import("./changes.js").Clash[]} clashing
   * @param {Fields} now as stored
   * @returns {Promise<import("./meeting.js").Met>}
   */
  choose(clashing, now) {
    const label = (/** @type {string} */ key) => this.declared.find((field) => field.key === key)?.label ?? key;
    const shown = clashing.map((clash) => ({ ...clash, label: label(clash.key) }));
    return new Promise((resolve) => {
      showConflict(this.beside, shown, (mine) => {
        const chosen = clashing.map(({ key, stored, yours }) => [key, mine.has(key) ? yours : stored ?? null]);
        this.draft.was = { ...this.draft.was, ...Object.fromEntries(clashing.map(({ key }) => [key, now[key]])) };
        this.replace({ ...this.draft.fields, ...Object.fromEntries(chosen) });
        this.beside.replaceChildren();
        resolve(this.send());
      });
    });
  }
}
