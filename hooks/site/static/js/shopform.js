/** The shop's settings: one form made from the declaration, saved into shop.yaml; what was not changed stays as written. */
import { changedKeys } from "./changes.js";
import { control } from "./controls.js";
import { openEdit } from "./editing.js";
import { offerKept } from "./kept.js";
import { ownPython, watchNumbers } from "./numbers.js";
import { clearProblems, showProblems } from "./problems.js";
import { data, need } from "./site.js";

const form = /** @type {HTMLFormElement} */ (need("#shop-form"));
const status = need("#shop-status");
const beside = need("#shop-beside");

/** @type {any} the declaration */
let declared;
/** @type {import("./editing.js").Editing} */
let editing;
/** @type {{key: string, element: HTMLElement, read: () => any}[]} */
let controls = [];

/** @returns {Promise<{busy: () => boolean, watch: boolean}>} */
export async function start() {
  const [declaration, stored] = await Promise.all([data("data/declaration.json"), data("data/shop.json")]);
  if (!declaration || !stored) {
    status.textContent = "The settings could not be loaded. Look at this page again in a moment.";
    return { busy: () => false, watch: true };
  }
  declared = declaration;
  editing = await openEdit("settings", { id: "shop", ...stored }, declared.shop_fields, beside);
  if (editing.broughtBack) status.textContent = "What you had typed is back. It is not saved yet.";
  fill();
  watchNumbers(form, ownPython());
  form.addEventListener("input", () => editing.write(values()));
  form.addEventListener("submit", save);
  offerKept(need("#kept"), editing.draft.id);
  return { busy: () => editing.busy(), watch: false };
}

function fill() {
  const fields = { ...editing.fields(), ...editing.changes() };
  const words = (/** @type {string} */ of) => declared.vocabularies[of]?.words ?? [];
  controls = declared.shop_fields.map((/** @type {any} */ field) => ({ key: field.key, ...control(field, fields[field.key], words) }));
  need("#shop-fields").replaceChildren(...controls.map(({ element }) => element));
}

function values() {
  return Object.fromEntries(controls.map(({ key, read }) => [key, read()]));
}

/** @param {Event} event */
async function save(event) {
  event.preventDefault();
  clearProblems(form);
  status.textContent = "Saving";
  form.inert = true;
  const sent = await editing.save();
  form.inert = false;
  status.textContent = TOLD[sent.how] ?? "";
  if (sent.how === "invalid") showProblems(form, sent.problems);
  if (sent.how === "away") need(".handover", beside).focus();
  if (sent.how === "saved" && Object.keys(changedKeys(editing.fields(), values())).length) fill(); // others changed some too
}

/** @type {Record<string, string>} */
const TOLD = {
  saved: "Saved in shop.yaml.",
  away: "No server took it. What you typed is kept on this device.",
  missing: "There is no shop.yaml any more. What you typed is kept here.",
  conflict: "shop.yaml was changed just now and its page is not new yet. Save again in a moment: nothing is lost.",
  refused: "The server would not take it. What you typed is kept here.",
  invalid: "Not saved yet: something in it is not right.",
};
