/** A job that came in an address, from the code on its printed sheet: unpacked, and cut to what a sheet may hold. */

const LARGEST = 100000; // characters: a sheet has some thousands
const LONGEST = 2000; // of one text

/**
 * @param {string} packed
 * @param {import("./controls.js").FieldSpec[]} fields of a job
 * @returns {Promise<Record<string, any> | null>} null where it cannot be read
 */
export async function carriedBy(packed, fields) {
  try {
    return shaped(fields, await unpacked(packed));
  } catch {
    return null;
  }
}

/**
 * @param {string} packed deflated JSON in base64 for addresses
 * @returns {Promise<any>} rejects what is none
 */
export async function unpacked(packed) {
  const bytes = Uint8Array.from(atob(packed.replaceAll("-", "+").replaceAll("_", "/")), (letter) => letter.charCodeAt(0));
  const text = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw")).pipeThrough(new TextDecoderStream());
  let json = "";
  for (const reader = text.getReader(); ;) {
    const { done, value } = await reader.read();
    if (done) return JSON.parse(json);
    json += value;
    if (json.length > LARGEST) throw new Error("more than a sheet holds");
  }
}

/**
 * Only what is declared, each in its shape: whatever the address held, a form can be filled with it. Pure.
 * @param {import("./controls.js").FieldSpec[]} fields
 * @param {any} value
 * @returns {Record<string, any>}
 */
export function shaped(fields, value) {
  if (value === null || typeof value !== "object") return {};
  const parts = fields.map((field) => [field.key, shape(field, Object.hasOwn(value, field.key) ? value[field.key] : undefined)]);
  return Object.fromEntries(parts.filter(([, part]) => part !== undefined));
}

/** @param {import("./controls.js").FieldSpec} field @param {any} value @returns {any} */
function shape(field, value) {
  if (field.type === "group") return value === undefined ? undefined : shaped(field.parts ?? [], value);
  if (field.type === "list" && field.item) return Array.isArray(value) ? value.map((one) => shape(/** @type {any} */ (field.item), one)).filter((one) => one !== undefined) : undefined;
  return typeof value === "string" ? value.slice(0, LONGEST) : undefined;
}
