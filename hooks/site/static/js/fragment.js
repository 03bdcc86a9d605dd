/** The numbers of a sum in the fragment of the address, and numbers as typed with their unit. Pure. */

/** The key in a fragment that names the lesson the page was opened from. */
const LESSON = "lesson";

/**
 * @param {string} hash such as "#cutter_diameter=6%20mm&lesson=20261125-063051-k7q2d"
 * @returns {{inputs: Record<string, string>, lesson: string, twice: string[]}} `twice`: keys given more than once
 */
export function readFragment(hash) {
  const inputs = /** @type {Record<string, string>} */ ({});
  const twice = [];
  for (const pair of hash.replace(/^#/, "").split("&").filter(Boolean)) {
    const [key, ...rest] = pair.split("=");
    if (!rest.length) continue;
    const name = decoded(key);
    if (Object.hasOwn(inputs, name)) twice.push(name);
    else inputs[name] = decoded(rest.join("="));
  }
  const { [LESSON]: lesson = "", ...others } = inputs;
  return { inputs: others, lesson, twice };
}

/** @param {string} text */
function decoded(text) {
  try {
    return decodeURIComponent(text);
  } catch {
    return text; // A stray "80 %" typed into the address by hand is still 80 %.
  }
}

/**
 * @param {Record<string, string>} inputs with their units
 * @param {string} [lesson]
 * @returns {string} begins with "#"
 */
export function writeFragment(inputs, lesson = "") {
  const pairs = lesson ? { [LESSON]: lesson, ...inputs } : inputs;
  const part = (/** @type {[string, string]} */ [key, value]) => `${encodeURIComponent(key)}=${encodeURIComponent(value)}`;
  return `#${Object.entries(pairs).map(part).join("&")}`;
}

const BARE_NUMBER = /^[+\-−–]?\s*(\d+([.,]\d*)?|[.,]\d+)(e[+\-−–]?\d{1,3})?$/i;
const BARE_FRACTION = /^[+\-−–]?\s*((\d+[ -]+)?\d+\s*[/⁄]\s*\d+|\d*\s*[¼½¾⅛⅜⅝⅞])$/;
const SEVERAL_NUMBERS = /^([-+−–\d.,;/⁄¼½¾⅛⅜⅝⅞xX×*\s]|(?<=[\d.,])e[+\-−–]?\d{1,3})+$/i;
const AMBIGUOUS = /^[+-]?\d{1,3},\d{3}$/;

/**
 * A number as typed, with the unit shown beside its box. What carries a unit already, or could be
 * misread, goes on as it is: the sums refuse "1,500" and a bare 1/4 of a millimetre, and say why.
 * @param {string} typed
 * @param {string} unit shown beside the box; "1" or "" for none
 * @returns {string}
 */
export function withUnit(typed, unit) {
  const text = typed.trim();
  const bare = BARE_NUMBER.test(text) || (unit === "in" && BARE_FRACTION.test(text));
  if (!bare || AMBIGUOUS.test(text) || !unit || unit === "1") return text;
  return `${text} ${unit}`;
}

/**
 * Several numbers as typed, with the unit that holds for all that have none.
 * @param {string} typed
 * @param {string} unit shown beside the box; "1" or "" for none
 * @returns {string}
 */
export function withUnits(typed, unit) {
  const text = typed.trim();
  if (!SEVERAL_NUMBERS.test(text) || !unit || unit === "1") return text;
  const [numbers, end = ""] = text.split(/(;)[;\s]*$/); // "82,5 x 12;": a semicolon at the end keeps its place
  return `${numbers} ${unit}${end}`;
}
