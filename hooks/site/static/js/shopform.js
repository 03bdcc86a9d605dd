/** The shop's settings: one form made from the declaration, saved into shop.yaml; what was not changed stays as written. */
import { changedKeys } from "./changes.js";
import { control } from "./controls.js";
import { ownPython, watchNumbers } from "./numbers.js";
import { clearProblems, showProblems } from "./problems.js";
import { saveShop } from "./send.js";
import { data, need, remember, remembered } from "./site.js";

const DRAFT = "shop";
const form = /** @type {HTMLFormElement} */ (need("#shop-form"));
const status = need("#shop-status");

/** @type {{hash: string, fields: Record<string, any>}} */
let shop = { hash: "", fields: {} };
/** @type {{key: string, element: HTMLElement, read: () => any}[]} */
let controls = [];

/** @returns {Promise<{busy: () => boolean, watch: boolean}>} */
export async function start() {
  const [declared, stored] = await Promise.all([data("data/declaration.json"), data("data/shop.json")]);
  if (!declared || !stored) {
    status.textContent = "The settings could not be loaded. Look at this page again in a moment.";
    return { busy: () => false, watch: true };
  }
  shop = stored;
  const kept = remembered(DRAFT);
  if (kept) status.textContent = "What you had typed is back. It is not saved yet.";
  const words = (/** @type {string} */ of) => declared.vocabularies[of]?.words ?? [];
  controls = declared.shop_fields.map((/** @type {any} */ field) => ({ key: field.key, ...control(field, { ...shop.fields, ...kept }[field.key], words) }));
  need("#shop-fields").replaceChildren(...controls.map(({ element }) => element));
  watchNumbers(form, ownPython());
  form.addEventListener("input", () => remember(DRAFT, changes()));
  form.addEventListener("submit", save);
  return { busy: () => Boolean(remembered(DRAFT)), watch: false };
}

function changes() {
  return changedKeys(shop.fields, Object.fromEntries(controls.map(({ key, read }) => [key, read()])));
}

/** @param {Event} event */
async function save(event) {
  event.preventDefault();
  clearProblems(form);
  status.textContent = "Saving";
  const changed = changes();
  const sent = await saveShop(shop.hash, changed);
  status.textContent = TOLD[sent.how] ?? "";
  if (sent.how === "invalid") showProblems(form, sent.problems);
  if (sent.how !== "saved") return;
  remember(DRAFT, null);
  shop = { hash: sent.hash, fields: { ...shop.fields, ...changed } };
}

/** @type {Record<string, string>} */
const TOLD = {
  saved: "Saved in shop.yaml.",
  away: "No server took it. What you typed is kept on this device.",
  missing: "There is no shop.yaml any more. What you typed is kept here.",
  conflict: "shop.yaml was changed elsewhere. What you typed is kept here; load the page anew to see the other version.",
  refused: "The server would not take it. What you typed is kept here.",
  invalid: "Not saved yet: something in it is not right.",
};
