/** What the shop's list lacks and somebody has just said, and whose it is. Pure. */

/**
 * @typedef {import("./controls.js").FieldSpec} FieldSpec
 * @typedef {{kind: string, key: string, name: string, values: Record<string, string>}} Offer
 *   a thing of the shop and what may be kept for it; `key` is "" for the saw, and for a thing that is not in the list yet
 */

const SAW = "saw";
/** True at one speed alone: the shop's page has a table for it. */
/** A diameter that is a size at all. */
const SIZE = /^\s*[\d.,]*[1-9½¼¾⅛⅜⅝⅞]/;
const AT_A_SPEED = "spindle_torque";

/**
 * @param {FieldSpec[]} shopFields the declaration of shop.yaml
 * @param {string} kind machines, cutters, vices, saw
 * @returns {FieldSpec[]} what is written of one of that kind, besides its key and name
 */
export function fieldsOf(shopFields, kind) {
  const declared = shopFields.find(({ key }) => key === kind);
  return ((declared?.item ?? declared)?.parts ?? []).filter(({ key, type }) => !["key", "name", AT_A_SPEED].includes(key) && type !== "list");
}

/**
 * @param {FieldSpec[]} fields
 * @param {string} key
 * @returns {boolean} whether a field of that key stands among them, however deep
 */
export function declares(fields, key) {
  return fields.some((field) => field.key === key || declares([...(field.parts ?? []), ...(field.item ? [field.item] : [])], key));
}

/**
 * @param {Record<string, any>} shop its settings as typed
 * @param {string} kind
 * @param {string | undefined} key
 * @returns {any} the thing of that key; undefined where there is none
 */
function thing(shop, kind, key) {
  if (kind === SAW) return { name: "The saw", ...shop.saw };
  return key ? (shop[kind] ?? []).find((/** @type {any} */ one) => one.key === key) : undefined;
}

/**
 * Whose fact it is: of the machine, vice or cutter that the job names there, or of the saw.
 * @param {string} fact
 * @param {Record<string, any>} job its fields as typed
 * @param {number[]} at set-up and operation, from nought
 * @param {Record<string, any>} shop
 * @param {FieldSpec[]} shopFields
 * @returns {{kind: string, key: string, name: string, field: FieldSpec} | null} null where it is the job's own
 */
export function ownerOf(fact, job, [setup, operation], shop, shopFields) {
  const held = job.setups?.[setup] ?? {};
  const keys = /** @type {Record<string, string>} */ ({
    machines: job.machine, vices: held.holding?.vice, cutters: held.operations?.[operation]?.cutter_of_shop, [SAW]: "",
  });
  for (const [kind, key] of Object.entries(keys)) {
    const field = fieldsOf(shopFields, kind).find((one) => one.key === fact);
    const owner = field && thing(shop, kind, key);
    if (field && owner) return { kind, key, name: owner.name, field };
  }
  return null;
}

/**
 * @param {Record<string, string>} values
 * @param {string} kind
 * @param {any} owner
 * @param {FieldSpec[]} shopFields
 * @returns {Offer | null} what of them the owner could hold and does not
 */
export function offerFor(values, kind, owner, shopFields) {
  const fits = fieldsOf(shopFields, kind).filter(({ key }) => typeof values[key] === "string" && owner[key] === undefined);
  if (!fits.length) return null;
  return { kind, key: owner.key ?? "", name: owner.name, values: Object.fromEntries(fits.map(({ key }) => [key, values[key]])) };
}

/**
 * What a job says of its cutters and the shop's list lacks: numbers of a cutter in the list, or a cutter that is not in it.
 * @param {Record<string, any>} job
 * @param {Record<string, any>} shop
 * @param {FieldSpec[]} shopFields
 * @param {(of: string, key: string) => string} label of a word
 * @returns {Offer[]} each once
 */
export function cuttersToKeep(job, shop, shopFields, label) {
  const operations = (job.setups ?? []).flatMap((/** @type {any} */ setup) => setup.operations ?? []);
  const offers = operations.map((/** @type {any} */ one) => {
    const own = one.cutter ?? {};
    const known = thing(shop, "cutters", one.cutter_of_shop) ?? alike(own, shop);
    if (known) return offerFor(own, "cutters", known, shopFields);
    if (!own.tool_kind || !SIZE.test(own.cutter_diameter ?? "")) return null;
    return offerFor(own, "cutters", { name: `${own.cutter_diameter} ${label("tool_kind", own.tool_kind)}` }, shopFields);
  });
  const told = new Map(offers.filter(Boolean).map((/** @type {Offer} */ one) => [JSON.stringify(one), one]));
  return [...told.values()];
}

/** @param {Record<string, string>} own @param {Record<string, any>} shop the shop's cutter of that kind and size that contradicts none of it */
function alike(own, shop) {
  const parts = Object.entries(own);
  const agrees = (/** @type {any} */ one) => parts.every(([key, text]) => [undefined, text].includes(one[key]));
  return (shop.cutters ?? []).find((/** @type {any} */ one) => one.tool_kind && one.tool_kind === own.tool_kind
    && one.cutter_diameter === own.cutter_diameter && agrees(one));
}

/**
 * @param {Record<string, any>} shop
 * @param {Offer} offer
 * @returns {Record<string, any>} the changes of shop.yaml that keep it
 */
export function changesFor(shop, { kind, key, name, values }) {
  if (kind === SAW) return { saw: { ...shop.saw, ...values } };
  const things = shop[kind] ?? [];
  if (!key) return { [kind]: [...things, { key: freeKey(name, things), name, ...values }] };
  return { [kind]: things.map((/** @type {any} */ one) => (one.key === key ? { ...one, ...values } : one)) };
}

/** @param {string} name @param {any[]} things @returns {string} such as "8-mm-end-mill", or "8-mm-end-mill-2" where that is taken */
function freeKey(name, things) {
  const plain = name.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "one";
  const taken = new Set(things.map(({ key }) => key));
  let key = plain;
  for (let more = 2; taken.has(key); more += 1) key = `${plain}-${more}`;
  return key;
}
