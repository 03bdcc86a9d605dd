/** Words within a typing error of one another. Pure. */

/** @param {string} word @returns {number} how many errors are forgiven: none in short words, where all is near all */
export function forgiven(word) {
  if (word.length < 4 || /\d/.test(word)) return 0;
  return word.length < 8 ? 1 : 2;
}

/**
 * @param {string} word
 * @param {Iterable<string>} known
 * @returns {{term: string, errors: number}[]} nearest first
 */
export function nearWords(word, known) {
  const most = forgiven(word);
  if (!most) return [];
  const found = [];
  for (const term of known) {
    const errors = distance(word, term, most);
    if (errors <= most) found.push({ term, errors });
  }
  return found.sort((a, b) => a.errors - b.errors || a.term.localeCompare(b.term));
}

/**
 * Letters put in, left out, mistaken or swapped with their neighbour (optimal string alignment).
 * @param {string} a
 * @param {string} b
 * @param {number} most no need to know beyond this
 * @returns {number} `most + 1` where it is more
 */
export function distance(a, b, most) {
  if (Math.abs(a.length - b.length) > most || b.startsWith("#")) return most + 1;
  let before = /** @type {number[]} */ ([]);
  let above = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1];
      row[j] = Math.min(above[j] + 1, row[j - 1] + 1, above[j - 1] + (same ? 0 : 1));
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (swapped) row[j] = Math.min(row[j], before[j - 2] + 1);
    }
    if (Math.min(...row) > most) return most + 1;
    [before, above] = [above, row];
  }
  return Math.min(above[b.length], most + 1);
}
