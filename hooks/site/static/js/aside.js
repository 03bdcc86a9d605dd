/** A form that begins anew: what was typed is put aside, and one tap brings it back. Nothing typed is lost. */
import { need, remember, remembered } from "./site.js";

/**
 * @typedef {object} Form
 * @property {string} name  what is put aside is kept by it
 * @property {string} label  of the button that begins anew
 * @property {() => Record<string, any> | null} typed  what is typed now and not saved, null where that is nothing
 * @property {(typed: Record<string, any> | null) => void} show  another draft, or (null) what it begins with
 */
export class Aside {
  /** @param {Form} form */
  constructor(form) {
    this.form = form;
    this.anew = need("#form-anew");
    this.back = need("#form-back");
    this.anew.textContent = form.label;
    this.anew.addEventListener("click", () => this.begin());
    this.back.addEventListener("click", () => this.bringBack());
    this.offer();
  }

  get name() {
    return `${this.form.name}:aside`;
  }

  /** @returns {Record<string, any>[]} the newest last */
  kept() {
    return remembered(this.name) ?? [];
  }

  /** @returns {Record<string, any>[]} what is typed now, where it is anything */
  typed() {
    const now = this.form.typed();
    return now ? [now] : [];
  }

  begin() {
    this.turn([...this.kept(), ...this.typed()], null, this.back);
  }

  /** The newest comes back; what was typed meanwhile goes behind the others. */
  bringBack() {
    const kept = this.kept();
    const newest = kept.pop() ?? null;
    this.turn([...this.typed(), ...kept], newest, this.anew);
  }

  /** @param {Record<string, any>[]} kept @param {Record<string, any> | null} draft shown from now on @param {HTMLElement} next to be tapped */
  turn(kept, draft, next) {
    remember(this.name, kept);
    this.form.show(draft);
    this.offer();
    next.focus();
  }

  /** A new beginning where a draft was brought back, a draft where one was put aside. */
  offer() {
    this.anew.hidden = !this.form.typed();
    this.back.hidden = !this.kept().length;
  }
}
