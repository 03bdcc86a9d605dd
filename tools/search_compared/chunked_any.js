/** Pagefind asked word by word, since it lists only pages that hold every word; the scores are added up. */

/** @param {string} base where its folder is */
export async function open(base) {
  const pagefind = await import(`${base}pagefind/pagefind.js`);
  await pagefind.init();
  return async (/** @type {string} */ question, /** @type {number} */ atMost) => {
    const words = [...new Set(question.split(/\s+/).filter((word) => word.length > 2))];
    const found = new Map();
    for (const { results } of await Promise.all(words.map((word) => pagefind.search(word)))) {
      for (const one of results) found.set(one.id, { one, score: one.score + (found.get(one.id)?.score ?? 0) });
    }
    const best = [...found.values()].sort((a, b) => b.score - a.score).slice(0, atMost);
    const shown = await Promise.all(best.map(({ one }) => one.data()));
    return shown.map(({ url }) => url.split("/").at(-2));
  };
}
