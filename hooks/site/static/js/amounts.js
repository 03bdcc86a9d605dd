/** Numbers with units in running text, brought to one unit, so that 1/4" and 6.35 mm are one word. Pure. */

const INCH = 25.4; // exact, ISO 31 / the international inch of 1959
const FRACTIONS = /** @type {Record<string, number>} */ ({ "½": 1 / 2, "¼": 1 / 4, "¾": 3 / 4, "⅛": 1 / 8, "⅜": 3 / 8, "⅝": 5 / 8, "⅞": 7 / 8 });
const COUNTS = /** @type {Record<string, number>} */ ({
  one: 1, two: 2, three: 3, four: 4, five: 5, six: 6, seven: 7, eight: 8, nine: 9, ten: 10, twelve: 12, twenty: 20,
});
const SPOKEN = /** @type {Record<string, number>} */ ({
  half: 1 / 2, quarter: 1 / 4, "three quarter": 3 / 4, "three quarters": 3 / 4, eighth: 1 / 8, sixteenth: 1 / 16,
});

/** Unit as written, the unit it is kept in, and the factor between them. The first that fits is taken. */
const UNITS = /** @type {[RegExp, string, number][]} */ ([
  [/^(mm\/min|millimet(re|er)s? (a|per) minute)$/, "mm/min", 1],
  [/^(in\/min|inch(es)? (a|per) minute|ipm)$/, "mm/min", INCH],
  [/^(m\/min|met(re|er)s? (a|per) minute)$/, "m/min", 1],
  [/^(rpm|rev\/min|revs?|1\/min)$/, "rpm", 1],
  [/^mm\/tooth$/, "mm", 1],
  [/^in\/tooth$/, "mm", INCH],
  [/^(k ?rpm|k revs?)$/, "rpm", 1000],
  [/^(mm|mil+imet(re|er)s?)$/, "mm", 1],
  [/^cm$/, "mm", 10],
  [/^(in|inch|inches|"|″|”|'')$/, "mm", INCH],
  [/^(thou|thous|thousandths?|mil)$/, "mm", INCH / 1000],
  [/^(tenths?)$/, "mm", INCH / 10000],
  [/^(µm|μm|um|microns?|micromet(re|er)s?)$/, "mm", 1 / 1000],
  [/^(°|deg|degrees?)$/, "deg", 1],
  [/^(%|per ?cent)$/, "%", 1],
  [/^kw$/, "kw", 1],
  [/^(nm|n m|n·m|newton met(re|er)s?)$/, "nm", 1],
  [/^bar$/, "bar", 1],
  [/^(hrc|hb|hv)$/, "hardness", 1],
]);

const NUMBER = String.raw`\d+[ -]\d+\/\d+|\d+\/\d+|\d*[½¼¾⅛⅜⅝⅞]|\d*[.,]\d+|\d+`;
const WORDS = [...Object.keys(SPOKEN), ...Object.keys(COUNTS)].sort((a, b) => b.length - a.length).join("|");
const UNIT = String.raw`(?:mm|in)\/tooth|k ?rpm|k revs?|mm\/min|in\/min|m\/min|rev\/min|(?:mil+imet(?:re|er)s?|met(?:re|er)s?|inch(?:es)?) (?:a|per) minute`
  + String.raw`|ipm|rpm|revs?|mil+imet(?:re|er)s?|mm|cm|inch(?:es)?|in(?! (?:the|a|an|my|our|it|this|that|one)\b)|"|″|”|''`
  + String.raw`|thousandths?|thous?|mil|tenths?|µm|μm|um|microns?|degrees?|deg|°|%|per ?cent|kw|nm|bar|hrc|hb|hv`;

/** One amount at the place where the expression stands; the unit may be missing after digits, not after words. */
export const AMOUNT = String.raw`(?:(?<![a-wyz\d/]|(?<!\d)x)(?:${NUMBER})|\b(?:${WORDS})(?=[ -](?:of )?(?:an? )?(?:${UNIT})))`
  + String.raw`(?:[ -]?(?:of )?(?:an? )?(?:${UNIT})(?![a-z]))?(?![a-wyz/\d]|x(?!\d))`;
const PARTS = new RegExp(String.raw`^(${NUMBER}|${WORDS})(?:[ -]?(?:of )?(?:an? )?(.+))?$`);

/**
 * @param {string} text lower case, one amount as `AMOUNT` finds it
 * @returns {{value: number, unit: string}} unit "" where none was written; a length is in mm
 */
export function readAmount(text) {
  const [, number = "", written = ""] = PARTS.exec(text) ?? [];
  const [, unit, factor] = UNITS.find(([spelling]) => spelling.test(written)) ?? [null, "", 1];
  return { value: rounded(numberOf(number) * factor), unit };
}

/** @param {number} value six digits: 1/64 in stays apart from 0.4 mm, and float dust goes */
function rounded(value) {
  return Number(value.toPrecision(6));
}

/** @param {string} text "1 1/4", "3/8", "½", "0,5", "9,000", "two", "half" */
function numberOf(text) {
  if (text in SPOKEN) return SPOKEN[text];
  if (text in COUNTS) return COUNTS[text];
  const last = FRACTIONS[text.at(-1) ?? ""];
  if (last) return Number(text.slice(0, -1) || 0) + last;
  const fraction = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(text);
  if (fraction) return Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]);
  if (/^[1-9]\d{0,2},\d{3}$/.test(text)) return Number(text.replace(",", "")); // 9,000 rpm
  return Number(text.replace(",", "."));
}

/**
 * The words an amount is found by.
 * @param {string} text as `AMOUNT` finds it
 * @returns {string[]} "6.35mm" for a length; the bare number too where no unit was written
 */
export function amountTerms(text) {
  const { value, unit } = readAmount(text);
  if (!Number.isFinite(value)) return [];
  return [`${value}${unit}`];
}

/**
 * The length that a word of the index stands for.
 * @param {string} term
 * @returns {number} mm; NaN where it is none
 */
export function lengthOf(term) {
  return /^[\d.]+mm$/.test(term) ? Number(term.slice(0, -2)) : NaN;
}
