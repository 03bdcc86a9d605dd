/** What an edit changes, compared by meaning and not by the order of keys. Pure. */

/** @typedef {Record<string, any>} Fields  a lesson's fields: texts, lists and groups of texts */

/**
 * @param {any} value
 * @returns {any} the same, without what is empty; null where nothing is left
 */
export function tidy(value) {
  if (value === undefined || value === null) return null;
  if (Array.isArray(value)) {
    const items = value.map(tidy).filter((item) => item !== null);
    return items.length ? items : null;
  }
  if (typeof value === "object") {
    const parts = Object.entries(value).map(([key, part]) => [key, tidy(part)]).filter(([, part]) => part !== null);
    return parts.length ? Object.fromEntries(parts) : null;
  }
  return String(value).trim() || null;
}

/** @param {any} value @returns {any} */
function inOrder(value) {
  if (Array.isArray(value)) return value.map(inOrder);
  if (value === null || typeof value !== "object") return value;
  return Object.entries(value).sort(([one], [other]) => (one < other ? -1 : 1)).map(([key, part]) => [key, inOrder(part)]);
}

/**
 * @param {any} one
 * @param {any} other
 */
export function sameValue(one, other) {
  return JSON.stringify(inOrder(tidy(one))) === JSON.stringify(inOrder(tidy(other)));
}

/**
 * @param {Fields} was
 * @param {Fields} now
 * @returns {Fields} the keys that differ, with their new value; null takes a key away
 */
export function changedKeys(was, now) {
  const changed = Object.keys(now).filter((key) => !sameValue(was[key], now[key]));
  return Object.fromEntries(changed.map((key) => [key, tidy(now[key])]));
}

/**
 * @param {Fields} was
 * @param {Fields} now the whole of it: a key that was there and is not any more is taken away
 * @returns {Fields}
 */
export function changesTo(was, now) {
  const gone = Object.keys(was).filter((key) => key !== "id").map((key) => [key, null]);
  return changedKeys(was, { ...Object.fromEntries(gone), ...now });
}

/**
 * @param {Fields} fields
 * @param {Fields} changes
 * @returns {Fields}
 */
export function applied(fields, changes) {
  const kept = Object.entries({ ...fields, ...changes }).filter(([, value]) => value !== null);
  return Object.fromEntries(kept);
}

/**
 * The changed keys that somebody else changed too since the edit began.
 * @param {Fields} was      as the edit found them
 * @param {Fields} stored   as they are now
 * @param {Fields} changes
 * @returns {string[]}
 */
export function clashes(was, stored, changes) {
  return Object.keys(changes).filter(
    (key) => !sameValue(was[key], stored[key]) && !sameValue(changes[key], stored[key]));
}

/**
 * @param {any} value
 * @returns {string} a value in lines, for a person to compare
 */
export function inLines(value) {
  const tidied = tidy(value);
  if (tidied === null) return "nothing";
  if (Array.isArray(tidied)) return tidied.map(inLines).join("\n");
  if (typeof tidied !== "object") return tidied;
  return Object.entries(tidied).map(([key, part]) => `${key.replaceAll("_", " ")}: ${inLines(part)}`).join("\n");
}
