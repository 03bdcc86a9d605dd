/** Asks for what is missing and offers to keep it in the shop's list; only where a server can write. */
import { changesFor, fieldsOf, ownerOf } from "./keeping.js";
import { hello, saveDraft } from "./send.js";
import { data, fromTemplate, need } from "./site.js";

/** @typedef {import("./keeping.js").Offer} Offer */

/** @param {Offer} offer @returns {Promise<import("./send.js").Outcome>} */
async function keep(offer) {
  const go = async () => {
    const stored = await data("data/shop.json");
    return stored ? saveDraft({ id: "", kind: "settings", base: stored.hash, fields: changesFor(stored.fields, offer) }) : { how: /** @type {"missing"} */ ("missing") };
  };
  const sent = await go();
  return sent.how === "conflict" ? go() : sent; // shop.yaml was changed since: once more, on what it says now
}

/**
 * Lists what could be kept, a button each.
 * @param {HTMLElement} place shown where there is anything
 * @param {Offer[]} offers
 * @param {any[]} shopFields
 * @param {() => void} kept
 * @param {(offer: Offer) => Promise<Offer>} [asItStands] the same offer with what was typed since it was listed
 */
export async function offerToKeep(place, offers, shopFields, kept, asItStands = async (offer) => offer) {
  const writable = offers.length > 0 && (await hello())?.writable;
  place.hidden = !writable;
  if (!writable) return;
  need(".to-keep__list", place).replaceChildren(...offers.map((offer) => line(offer, shopFields, kept, asItStands)));
}

/** @param {Offer} offer @param {any[]} shopFields @param {() => void} kept @param {(offer: Offer) => Promise<Offer>} asItStands */
function line(offer, shopFields, kept, asItStands) {
  const element = fromTemplate("to-keep-line");
  const labels = Object.fromEntries(fieldsOf(shopFields, offer.kind).map(({ key, label }) => [key, label.toLowerCase()]));
  const values = Object.entries(offer.values).map(([key, text]) => `${labels[key]} ${text.replaceAll("_", " ")}`);
  const whose = offer.key || offer.kind === "saw" ? offer.name : `New: ${offer.name}`;
  need(".to-keep__what", element).textContent = `${whose}: ${values.join(", ")}`;
  const button = /** @type {HTMLButtonElement} */ (need("button", element));
  button.addEventListener("click", async () => tryKeep(await asItStands(offer), button, need(".to-keep__told", element), kept));
  return element;
}

/**
 * @param {Offer} offer
 * @param {HTMLButtonElement} button
 * @param {HTMLElement} told
 * @param {() => void} kept
 */
async function tryKeep(offer, button, told, kept) {
  button.disabled = true;
  told.textContent = "Saving";
  const sent = await keep(offer);
  button.disabled = false;
  if (sent.how === "invalid") told.textContent = `Not kept: ${sent.problems.map(({ text }) => text).join(" ")}`;
  else told.textContent = sent.how === "saved" ? "Kept in the shop's list." : "Not kept: no server took it.";
  if (sent.how !== "saved") return;
  button.hidden = true;
  kept();
}

/**
 * Beside each sum that lacks one fact: a box, where the fact belongs to something in the shop's list; else a way to the job's own box.
 * @param {HTMLElement} brief
 * @param {{job: Record<string, any>, declared: any, goTo: (fact: string, at: number[]) => (() => void) | null, kept: () => void}} asked
 *   `goTo` gives the way to the job's own box, null where it has none
 */
export async function askForLacking(brief, { job, declared, goTo, kept }) {
  const lines = [...brief.querySelectorAll("[data-lacks]")];
  if (!lines.length) return;
  const [stored, server] = await Promise.all([data("data/shop.json"), hello()]);
  for (const found of lines) {
    const { lacks = "", at = "" } = /** @type {HTMLElement} */ (found).dataset;
    const place = at.split(" ").map(Number);
    const owner = stored && server?.writable && ownerOf(lacks, job, place, stored.fields, declared.shop_fields);
    const way = owner ? null : goTo(lacks, place);
    if (owner) found.append(box(owner, kept));
    if (way) found.append(door(way));
  }
}

/** @param {NonNullable<ReturnType<typeof ownerOf>>} owner @param {() => void} kept */
function box({ kind, key, name, field }, kept) {
  const element = fromTemplate("lack-box");
  need(".lack__what", element).textContent = `${field.label}, ${name}`;
  const input = /** @type {HTMLInputElement} */ (need("input", element));
  input.placeholder = field.unit && field.unit !== "1" ? field.unit : "";
  const button = /** @type {HTMLButtonElement} */ (need("button", element));
  const told = need(".to-keep__told", element);
  const go = () => input.value.trim() && tryKeep({ kind, key, name, values: { [field.key]: input.value.trim() } }, button, told, kept);
  button.addEventListener("click", go);
  input.addEventListener("input", (event) => event.stopPropagation()); // it is no box of the job
  input.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    go();
  });
  return element;
}

/** @param {() => void} way */
function door(way) {
  const button = fromTemplate("lack-door");
  button.addEventListener("click", way);
  return button;
}
