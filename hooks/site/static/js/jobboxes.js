/** The boxes of a job's form: made from the declaration, filled, and read back. */
import { tidy } from "./changes.js";
import { control } from "./controls.js";
import { need } from "./site.js";

const NOT_ASKED = ["id", "held", "copied_from"];
const FIRST = ["part", "material", "iso513", "machine"];
/** A new sheet begins with one set-up and one operation in it. */
const EMPTY = { setups: [{ operations: [{}] }] };

export class JobBoxes {
  /** @param {any} declared the declaration */
  constructor(declared) {
    this.declared = declared;
    /** @type {{key: string, element: HTMLElement, read: () => any}[]} */
    this.controls = [];
    /** @type {Record<string, any>} what a new sheet has beside what is asked */
    this.unasked = {};
  }

  /** @param {Record<string, any>} fields all of them */
  fill(fields) {
    const words = (/** @type {string} */ of) => this.declared.vocabularies[of]?.words ?? [];
    const value = (/** @type {string} */ key) => fields[key] ?? EMPTY[/** @type {"setups"} */ (key)];
    this.unasked = fields.copied_from ? { copied_from: fields.copied_from } : {};
    this.controls = this.declared.job_fields.filter((/** @type {any} */ { key }) => !NOT_ASKED.includes(key))
      .map((/** @type {any} */ field) => ({ key: field.key, ...control(field, value(field.key), words) }));
    this.place("#job-first", (key) => FIRST.includes(key));
    this.place("#job-setups", (key) => key === "setups");
    this.place("#job-more", (key) => !FIRST.includes(key) && key !== "setups");
  }

  /** @param {string} where @param {(key: string) => boolean} fits */
  place(where, fits) {
    need(where).replaceChildren(...this.controls.filter(({ key }) => fits(key)).map(({ element }) => element));
  }

  /** @returns {Record<string, any>} every field that is asked as it stands, null where it is empty */
  read() {
    return { ...this.unasked, ...Object.fromEntries(this.controls.map(({ key, read }) => [key, tidy(read())])) };
  }
}
