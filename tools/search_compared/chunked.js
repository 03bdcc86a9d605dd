/** Pagefind: an index in chunks, of which only those are fetched that a question needs. */

/** @param {string} base where its folder is */
export async function open(base) {
  const pagefind = await import(`${base}pagefind/pagefind.js`);
  await pagefind.init();
  return async (/** @type {string} */ question, /** @type {number} */ atMost) => {
    const { results } = await pagefind.search(question);
    const shown = await Promise.all(results.slice(0, atMost).map((/** @type {any} */ one) => one.data()));
    return shown.map(({ url }) => url.split("/").at(-2));
  };
}
