/** A job's form and what is missing: the way to the box of a fact, and cutters that the shop's list lacks. */
import { offerToKeep } from "./keep.js";
import { cuttersToKeep } from "./keeping.js";
import { onPage } from "./problems.js";
import { data, need } from "./site.js";

/**
 * The way to the job's own box of a fact: in the operation, else in its set-up's holding, else in the stock, else of the whole job.
 * @param {HTMLFormElement} form
 * @param {string} fact
 * @param {number[]} at set-up and operation, from nought
 * @returns {(() => void) | null} null where the form has no such box
 */
export function boxOf(form, fact, [setup, operation]) {
  const places = [`setups.${setup}.operations.${operation}`, `setups.${setup}.holding`, "stock"];
  const boxes = places.map((place) => form.querySelector(`[data-box][name^="${onPage(form, place)}."][name$=".${fact}"]`));
  boxes.push(form.querySelector(`[name="${fact}"]`));
  const box = boxes.find((found) => found instanceof HTMLElement);
  if (!(box instanceof HTMLElement)) return null;
  return () => {
    for (let fold = box.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) fold.open = true;
    box.focus();
  };
}

/**
 * @param {() => Record<string, any>} read the job as it stands
 * @param {any} declared the declaration
 * @param {() => void} kept
 */
export async function offerCutters(read, declared, kept) {
  const label = (/** @type {string} */ of, /** @type {string} */ key) =>
    declared.vocabularies[of]?.words.find((/** @type {any} */ word) => word.key === key)?.label.toLowerCase() ?? key;
  const offers = async () => cuttersToKeep(read(), (await data("data/shop.json"))?.fields ?? {}, declared.shop_fields, label);
  const asItStands = async (/** @type {import("./keeping.js").Offer} */ offer) =>
    (await offers()).find(({ key, name }) => key === offer.key && name === offer.name) ?? offer;
  await offerToKeep(need("#to-keep"), await offers(), declared.shop_fields, kept, asItStands);
}

/**
 * What was kept can be picked in the form that is open.
 * @param {HTMLFormElement} form
 * @param {any} declared the declaration; it is brought up to date
 */
export async function moreCutters(form, declared) {
  Object.assign(declared, await data("data/declaration.json"));
  const words = declared.vocabularies.cutters?.words ?? [];
  for (const select of form.querySelectorAll("select[name$='.cutter_of_shop']")) {
    const there = new Set([...select.querySelectorAll("option")].map(({ value }) => value));
    select.append(...words.filter((/** @type {any} */ { key }) => !there.has(key)).map((/** @type {any} */ { key, label }) => new Option(label, key)));
  }
}
