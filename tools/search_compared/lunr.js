/** Lunr: one prebuilt index with stems; each word as it is and, for less, within one typing error. */

/** @param {string} base where its index is */
export async function open(base) {
  const script = document.createElement("script");
  script.src = "/lunr.js";
  const loaded = new Promise((resolve) => { script.onload = resolve; });
  document.head.append(script);
  const [kept] = await Promise.all([fetch(`${base}lunr.json`).then((got) => got.json()), loaded]);
  const { lunr } = /** @type {any} */ (window);
  const index = lunr.Index.load(kept);
  return async (/** @type {string} */ question, /** @type {number} */ atMost) => {
    const terms = lunr.tokenizer(question);
    const found = index.query((/** @type {any} */ query) => {
      query.term(terms, { boost: 10 });
      query.term(terms.filter((/** @type {any} */ term) => String(term).length > 3), { boost: 1, editDistance: 1 });
    });
    return found.slice(0, atMost).map((/** @type {any} */ one) => one.ref);
  };
}
