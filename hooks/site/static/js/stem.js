/** English words brought to a common form: spelling, irregular forms, plural, -ed, -ing. Pure. */

const VOWEL = /[aeiouy]/;
/** What a verb makes of itself: "compensation" is what compensates. */
const NOUNS = /** @type {[RegExp, string][]} */ ([
  [/^(.{4,})ation$/, "$1ate"],
  [/^(.{3,}[cprs]t)ion$/, "$1"],
  [/^(.{4,})ment$/, "$1"],
]);
const PLURALS = /** @type {[RegExp, string][]} */ ([
  [/^(.{2,})ies$/, "$1y"],
  [/^(.+(?:ss|sh|ch|x|zz))es$/, "$1"],
  [/^(.*[^siu])s$/, "$1"],
]);

/**
 * @param {string} word lower case letters
 * @param {{spellings: Record<string, string>, forms: Record<string, string>}} words
 * @returns {string} what forms of one word share: "gouge", "gouged" and "gouging" give "goug"
 */
export function stem(word, words) {
  const known = own(words.forms, word) ?? own(words.spellings, word) ?? word;
  if (known.length < 4 || /\d/.test(known)) return known;
  const one = singular(known);
  if (one.length < 4) return one;
  const base = own(words.spellings, one) ?? one;
  const short = withoutEnding(base.replace(/([a-z]{3})iz(e|ed|es|ing|ation)$/, "$1is$2"));
  const spelt = own(words.spellings, short);
  return spelt ? withoutEnding(spelt) : short;
}

/** @param {Record<string, string>} table @param {string} key */
function own(table, key) {
  return Object.hasOwn(table, key) ? table[key] : undefined;
}

/** @param {string} word */
function singular(word) {
  return replaced(word, PLURALS);
}

/** @param {string} word @param {[RegExp, string][]} rules the first that fits is taken */
function replaced(word, rules) {
  const rule = rules.find(([ending]) => ending.test(word));
  return rule ? word.replace(rule[0], rule[1]) : word;
}

/** @param {string} word */
function withoutEnding(word) {
  if (/^.{2,}ied$/.test(word)) return `${word.slice(0, -3)}y`;
  if (/^[aeiou][^aeiouy](ed|ing)$/.test(word)) return `${word.slice(0, 2)}e`; // "used"
  const noun = replaced(word, NOUNS);
  if (noun !== word) return shorn(noun);
  const [, before = ""] = /^(.+?)(?:(?<!e)ed|ing|ly)$/.exec(word) ?? []; // "feed" is no past of anything
  if (before.length < 2 || !VOWEL.test(before)) return shorn(word);
  return /(.)\1$/.test(before) ? before.slice(0, -1) : shorn(shortSyllable(before) ? `${before}e` : before);
}

/**
 * Takes the silent e and the second of two equal letters; "tape" keeps its e, else it would be a tap.
 * @param {string} word
 */
function shorn(word) {
  if (/e$/.test(word) && !shortSyllable(word.slice(0, -1))) return word.slice(0, -1);
  return word.replace(/([b-df-hj-np-tv-z])\1$/, "$1");
}

/** One vowel between consonants, as in "tap": @param {string} word */
function shortSyllable(word) {
  return /^[^aeiouy]*[aeiouy][^aeiouywx]$/.test(word) && /[^aeiou][aeiouy][^aeiouywx]$/.test(word);
}
