/** Fills a sum's boxes from what the shop has: a machine, a cutter, a vice, the saw. */
import { boxes, putIn } from "./sumform.js";
import { data, fromTemplate, need } from "./site.js";

/** @type {[string, string][]} */
const KINDS = [["machines", "Machine"], ["cutters", "Cutter"], ["vices", "Vice"], ["saw", "Saw"]];

/**
 * @param {HTMLFormElement} form
 * @param {() => void} filled what to do once boxes were filled
 * @returns {Promise<Map<string, any>>} what is picked, by kind: it changes as one picks
 */
export async function offerShop(form, filled) {
  const shop = (await data("data/shop.json"))?.fields ?? {};
  const place = need("#from-shop");
  const picked = new Map();
  for (const [kind, label] of KINDS) {
    const things = thingsOf(shop, kind);
    const useful = things.filter((/** @type {any} */ thing) => fitting(form, thing).length);
    if (useful.length) place.append(choice(label, useful, (thing) => {
      picked.set(kind, thing);
      fill(form, thing);
      filled();
    }));
  }
  place.hidden = !place.children.length;
  return picked;
}

/** @param {Record<string, any>} shop @param {string} kind @returns {any[]} for a table, all cutters together are one more */
function thingsOf(shop, kind) {
  if (kind === "saw") return [{ name: "The saw", ...shop.saw }];
  const all = (shop[kind] ?? []).filter((/** @type {any} */ one) => one.cutter_diameter && one.teeth);
  const cutters = all.map((/** @type {any} */ one) => `${one.cutter_diameter} x ${one.teeth}`).join("; ");
  return [...(shop[kind] ?? []), ...(cutters ? [{ name: "All of them", cutters }] : [])];
}

/** @param {HTMLFormElement} form @param {Record<string, any>} thing */
function fitting(form, thing) {
  return boxes(form).filter(({ name }) => name !== "name" && typeof thing[name] === "string");
}

/** @param {HTMLFormElement} form @param {Record<string, any>} thing */
function fill(form, thing) {
  for (const box of fitting(form, thing)) putIn(box, thing[box.name]);
}

/** @param {string} label @param {any[]} things @param {(thing: any) => void} picked */
function choice(label, things, picked) {
  const element = fromTemplate("from-shop-choice");
  need("span", element).textContent = label;
  const select = /** @type {HTMLSelectElement} */ (need("select", element));
  things.forEach((thing, at) => select.append(new Option(thing.name, String(at))));
  select.addEventListener("change", (event) => {
    event.stopPropagation();
    if (select.value) picked(things[Number(select.value)]);
  });
  select.addEventListener("input", (event) => event.stopPropagation()); // it is no box of the sum
  return element;
}
