/** After a save, the lesson's page asks at most three questions, one tap each; every tap can be taken back. */
import { saveDraft } from "./send.js";
import { data, fromTemplate, need } from "./site.js";

const QUESTIONS = ["stage", "operation", "could_have"];

/** What a card may come to beside a word: nothing said, or the one before again. */
const SKIP = Symbol("skip");
const BACK = Symbol("back");

/** @returns {Promise<{busy: () => boolean} | undefined>} */
export async function start() {
  const place = document.getElementById("next-questions");
  if (!place || location.hash !== "#next") return undefined;
  history.replaceState(null, "", location.pathname);
  const [lesson, declared] = await Promise.all([data(`data/lesson/${place.dataset.lesson}.json`), data("data/declaration.json")]);
  const open = QUESTIONS.filter((key) => lesson && declared && !(key in lesson.fields));
  place.hidden = false;
  let asking = open.length > 0;
  new Asking(place, lesson, declared).all(open).then(() => { asking = false; });
  return { busy: () => asking };
}

class Asking {
  /** @param {HTMLElement} place @param {any} lesson {id, hash, fields} @param {any} declared the declaration */
  constructor(place, lesson, declared) {
    this.place = place;
    this.lesson = lesson;
    this.declared = declared;
    this.hash = lesson?.hash;
    /** @type {Map<string, string>} what was answered and is stored: the word by its question */
    this.stored = new Map();
  }

  /** @param {string[]} open keys still to be asked */
  async all(open) {
    let at = 0;
    while (at < open.length || this.stored.size) {
      const said = at < open.length ? await this.ask(open[at], at > 0) : await this.tell();
      if (said === SKIP && at === open.length) return location.reload();
      if (said === BACK) at -= 1;
      const word = typeof said === "string" ? said : null;
      if (said !== SKIP && !(await this.store(open[at], word))) return this.unsaved();
      if (said !== BACK) at += 1;
    }
    need(".next__cards", this.place).replaceChildren();
  }

  /** @param {string} key @param {string | null} word null takes an answer back @returns {Promise<boolean>} */
  async store(key, word) {
    if (!word && !this.stored.has(key)) return true;
    const sent = await saveDraft({ id: "", kind: "edit", of: this.lesson.id, base: this.hash, fields: { [key]: word } });
    if (sent.how !== "saved") return false;
    this.hash = sent.hash;
    if (word) this.stored.set(key, word);
    else this.stored.delete(key);
    return true;
  }

  /** @param {string} key */
  field(key) {
    return this.declared.fields.find((/** @type {any} */ one) => one.key === key);
  }

  /** @param {string} key @returns {{key: string, label: string}[]} */
  words(key) {
    return this.declared.vocabularies[this.field(key).of].words;
  }

  /** @param {string} key @param {boolean} back whether there is one before @returns {Promise<string | symbol>} */
  ask(key, back) {
    const { label, help } = this.field(key);
    return this.show(label, help, this.words(key), "Skip", back);
  }

  /** All is answered; the last tap may have been a wrong one. */
  tell() {
    const said = [...this.stored].map(([key, word]) => `${this.field(key).label} ${this.words(key).find((one) => one.key === word)?.label}.`);
    return this.show("Stored", said.join(" "), [], "Show the lesson", true);
  }

  /**
   * @param {string} question @param {string} help @param {{key: string, label: string}[]} words
   * @param {string} on what the button says that goes on @param {boolean} back
   * @returns {Promise<string | symbol>}
   */
  show(question, help, words, on, back) {
    const card = fromTemplate("next-card");
    need(".card__question", card).textContent = question;
    need(".field__help", card).textContent = help;
    need(".card__skip", card).textContent = on;
    need(".card__back", card).hidden = !back;
    return new Promise((resolve) => {
      need(".card__answers", card).append(...words.map((word) => chip(word, resolve)));
      need(".card__skip", card).addEventListener("click", () => resolve(SKIP));
      need(".card__back", card).addEventListener("click", () => resolve(BACK));
      need(".next__cards", this.place).replaceChildren(card);
      card.focus({ preventScroll: true });
    });
  }

  unsaved() {
    need(".next__cards", this.place).replaceChildren();
    need(".next__told", this.place).textContent = "That answer was not saved. Complete the lesson from its edit page.";
  }
}

/** @param {{key: string, label: string}} word @param {(key: string) => void} tapped */
function chip(word, tapped) {
  const element = fromTemplate("next-chip");
  element.textContent = word.label;
  element.dataset.word = word.key;
  element.addEventListener("click", () => tapped(word.key));
  return element;
}
