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
 * @param {Fields} fields
 * @param {Fields} changes
 * @returns {Fields}
 */
export function applied(fields, changes) {
  const kept = Object.entries({ ...fields, ...changes }).filter(([, value]) => value !== null);
  return Object.fromEntries(kept);
}

/** @typedef {{key: string, stored: any, yours: any}} Clash  what both sides changed: either choice keeps the rest of both */

/**
 * An edit meets what was stored since it began: what only one side changed holds. A list whose lines are
 * known by one of their parts meets line by line. `run.py receive` has the same rule, in hooks/shop/meet.py.
 * @param {Fields} was      as the edit found them
 * @param {Fields} stored   as they are now
 * @param {Fields} changes
 * @param {Record<string, string>} by  lists of named lines, and the part that names a line
 * @returns {{changes: Fields, clashing: Clash[]}} what is left to change
 */
export function meet(was, stored, changes, by) {
  /** @type {Fields} */
  const left = {};
  /** @type {Clash[]} */
  const clashing = [];
  for (const [key, mine] of Object.entries(changes)) {
    if (sameValue(mine, stored[key])) continue;
    const [yours, theirs] = sameValue(was[key], stored[key]) ? [mine, mine] : byLine([was[key], stored[key], mine], by[key]);
    if (!sameValue(yours, theirs)) clashing.push({ key, stored: theirs, yours });
    else if (!sameValue(yours, stored[key])) left[key] = yours;
  }
  return { changes: left, clashing };
}

/**
 * @param {any[]} sides was, stored, mine
 * @param {string | undefined} by
 * @returns {[any, any]} both in one: mine before theirs where both changed a line, and theirs before mine
 */
function byLine(sides, by) {
  const lists = sides.map((side) => (Array.isArray(side) ? side : []));
  const [was, stored, mine] = lists.map((lines) => new Map(lines.map((line) => [line[by ?? ""], line])));
  const named = [was, stored, mine].every((lines, at) => lines.size === lists[at].length);
  if (!by || !named) return [sides[2], sides[1]];
  const names = [...new Set([...stored.keys(), ...mine.keys()])];
  const both = (/** @type {boolean} */ mineFirst) => tidy(names.map((name) => {
    const [before, theirs, ours] = [was, stored, mine].map((lines) => lines.get(name));
    const first = sameValue(ours, before) || (!mineFirst && !sameValue(theirs, before)) ? theirs : ours;
    return first ?? null;
  }));
  return [both(true), both(false)];
}

/**
 * @param {{key: string, by?: string}[]} declared
 * @returns {Record<string, string>} lists of named lines, and the part that names a line
 */
export function namedLists(declared) {
  return Object.fromEntries(declared.filter(({ by }) => by).map(({ key, by }) => [key, by ?? ""]));
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
