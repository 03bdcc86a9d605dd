/** Something new being written: kept from the first keystroke, brought back from a closed tab, saved or carried home. */
import { allDrafts, dropDraft, keepDraft, newDraft, tabName, takeOver } from "./drafts.js";
import { newLessonId } from "./ids.js";
import { nameOf, showHandOver } from "./kept.js";
import { KINDS } from "./kinds.js";
import { saveDraft } from "./send.js";
import { address, fromTemplate, need } from "./site.js";
import { meetTabs } from "./tabs.js";

/** @typedef {import("./drafts.js").Draft} Draft */

export class Begun {
  /**
   * @param {"lesson"|"job"} kind
   * @param {HTMLElement} beside where hand-overs and second wordings show
   */
  constructor(kind, beside) {
    this.kind = kind;
    this.beside = beside;
    this.draft = newDraft(kind, tabName());
  }

  /** @returns {boolean} whether something was typed that is not stored */
  busy() {
    return Boolean(this.draft.at);
  }

  /**
   * @param {Record<string, any>} fields all of them, as they stand now
   * @returns {boolean} false where this browser keeps nothing
   */
  write(fields) {
    if (!this.draft.at) this.draft.id = newLessonId(); // of the first keystroke, not of the hour the page was opened
    Object.assign(this.draft, { fields, handed: false });
    return keepDraft(this.draft);
  }

  forget() {
    dropDraft(this.draft);
    this.draft = newDraft(this.kind, this.draft.tab);
  }

  /**
   * Brings back this tab's draft, or the newest whose tab is closed; others are offered.
   * @param {HTMLElement} place where they are offered
   * @param {(fields: Record<string, any>) => void} show fills the form
   * @param {(kept: Draft) => boolean} [fits] which of them belong to what this page was opened for
   */
  async bringBack(place, show, fits = () => true) {
    const { tab, open } = await meetTabs();
    if (this.draft.at) takeOver(this.draft, tab);
    this.draft.tab = tab;
    const waiting = allDrafts().filter((kept) => kept.kind === this.kind && !kept.handed && kept.id !== this.draft.id);
    const free = waiting.filter((kept) => !open.has(kept.tab));
    const fitting = free.filter(fits);
    const mine = fitting.find((kept) => kept.tab === tab) ?? fitting[0];
    if (mine && !this.draft.at) this.goOn(mine, show);
    free.filter((kept) => kept.id !== this.draft.id).forEach((kept) => this.offer(kept, place, show));
  }

  /** @param {Draft} kept @param {(fields: Record<string, any>) => void} show */
  goOn(kept, show) {
    takeOver(kept, this.draft.tab);
    this.draft = kept;
    show(kept.fields);
  }

  /** @param {Draft} kept @param {HTMLElement} place @param {(fields: Record<string, any>) => void} show */
  offer(kept, place, show) {
    const line = fromTemplate("draft-line");
    need(".kept__said", line).textContent = nameOf(kept);
    need(".kept__go-on", line).addEventListener("click", () => {
      line.remove();
      if (this.draft.at) this.offer(this.draft, place, show);
      this.goOn(kept, show);
    });
    need(".kept__drop", line).addEventListener("click", () => {
      dropDraft(kept);
      line.remove();
    });
    place.append(line);
  }

  /**
   * @param {() => void} again saves once more, once it has an id of its own
   * @returns {Promise<import("./send.js").Outcome>} nothing is dropped unless the outcome is "saved"
   */
  async save(again) {
    const sent = await saveDraft(this.draft);
    if (sent.how === "saved") dropDraft(this.draft);
    if (sent.how === "away") showHandOver(this.draft, this.beside, () => location.reload());
    if (sent.how === "conflict") this.offerSecond(again);
    return sent;
  }

  /** An earlier wording is stored, as when the answer to a save got lost. @param {() => void} again */
  offerSecond(again) {
    const panel = fromTemplate("second-wording");
    need("a", panel).setAttribute("href", address(KINDS[this.kind].page(this.draft.id)));
    need("button", panel).addEventListener("click", () => {
      dropDraft(this.draft);
      this.draft.id = newLessonId();
      panel.remove();
      again();
    });
    this.beside.replaceChildren(panel);
  }
}
