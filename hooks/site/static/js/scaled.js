/** A copied job at another size: the part's lengths change, cutters, holding and cutting data do not. Pure. */

const LENGTH = /^(?:(\d+)[ -]+)?(\d+(?:[.,]\d+)?|[.,]\d+)(?:\s*\/\s*(\d+))?(\s*(?:mm|cm|m|in|inch|"|″))?$/;
const OF_THE_PART = ["geometry", "stock"];
/** Lengths of the part that stand among those of the holding. */
const OF_THE_PART_HELD = ["part_width", "part_height", "lowest_cut"];
/** What is no length, or stays whatever the part's size. */
const LEFT = ["thread", "sawn_faces", "bar", "bar_length", "tolerance", "finish", "feature", "note"];

/**
 * @param {string} text a length as typed: 12, 12 mm, .25in, 1/4", 2 1/2 in, 0,5
 * @param {number} by
 * @returns {string | null} null where it is no plain length
 */
export function scaledLength(text, by) {
  const found = LENGTH.exec(text.trim());
  if (!found) return null;
  const [, whole = "0", top, bottom = "1", unit = ""] = found;
  if (/,\d{3}$/.test(top) || !Number(bottom)) return null; // read in two ways, or none
  const value = Number(whole) + Number(top.replace(",", ".")) / Number(bottom);
  return `${Number((value * by).toPrecision(8))}${unit || (bottom === "1" ? "" : " in")}`;
}

/**
 * @param {any} fields of a job
 * @param {number} by
 * @returns {{fields: any, left: string[]}} a copy, and what could not be scaled, as "label: text"
 */
export function scaled(fields, by) {
  const left = /** @type {string[]} */ ([]);
  const length = (/** @type {string} */ key, /** @type {any} */ text) => {
    const found = typeof text === "string" ? scaledLength(text, by) : null;
    if (found === null) left.push(`${key.replaceAll("_", " ")} ${text}`);
    return found ?? text;
  };
  const group = (/** @type {Record<string, any>} */ one, /** @type {(key: string) => boolean} */ fits) =>
    Object.fromEntries(Object.entries(one).map(([key, text]) => [key, fits(key) ? length(key, text) : text]));
  const walk = (/** @type {any} */ value) => {
    if (Array.isArray(value)) return value.map(walk);
    if (value === null || typeof value !== "object") return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => {
      if (OF_THE_PART.includes(key)) return [key, group(inner ?? {}, (name) => !LEFT.includes(name))];
      if (key === "holding") return [key, group(inner ?? {}, (name) => OF_THE_PART_HELD.includes(name))];
      return [key, walk(inner)];
    }));
  };
  return { fields: walk(fields), left };
}

/**
 * @param {any} fields of a job
 * @param {string} typed the number to scale by
 * @returns {{fields: any, said: string}} no fields where it is no number to scale by
 */
export function scaledBy(fields, typed) {
  const by = Number(typed.replace(",", "."));
  if (!(by > 0.001 && by < 1000)) return { fields: null, said: "Scale by a number such as 1.25 or 0.5." };
  const { fields: larger, left } = scaled(fields, by);
  const missed = left.length ? ` Not scaled, since they are no plain lengths: ${left.join(", ")}.` : "";
  const said = `The part's lengths are ${by} times what they were. Cutters, grip and cutting data are as they were: look at them.${missed}`;
  return { fields: larger, said };
}
