/** Where in the lessons the words of a question are, and how much each is worth there. Pure. */

/**
 * @typedef {import("./words.js").Search} Search
 * @typedef {import("./meanings.js").Asked} Asked
 * @typedef {import("./meanings.js").Match} Match
 * @typedef {{id: string, score: number, match: Record<string, string[]>}} Place a lesson that has a word, and in which fields
 */

/**
 * The best match of each word of the question in each lesson.
 * @param {Search} search
 * @param {Asked[]} wanted
 * @returns {Map<string, Map<Asked, Match>>}
 */
export function gather(search, wanted) {
  const found = new Map();
  const looked = new Map();
  const places = (/** @type {string} */ term) => looked.get(term) ?? looked.set(term, lookUp(search, term)).get(term);
  for (const word of wanted) {
    const most = ceiling(word, places);
    for (const { term, weight, how, said } of word.terms) {
      for (const { id, score, match } of places(term)) {
        const matches = found.get(id) ?? found.set(id, new Map()).get(id);
        const worth = (how === "like" ? Math.min(score, most) : score) * weight;
        if (worth > (matches.get(word)?.score ?? 0)) matches.set(word, { score: worth, term, how, said, fields: match[term] });
      }
    }
  }
  return found;
}

/** @param {Search} search @param {string} term @returns {Place[]} */
function lookUp(search, term) {
  return search.mini.search(term, { tokenize: () => [term] });
}

/**
 * A word of two meanings ("lift": the part came up; the crane) may mean the other one: what is like it
 * counts no more than the word itself does where it counts most.
 * @param {Asked} word
 * @param {(term: string) => Place[]} places
 * @returns {number}
 */
function ceiling({ terms }, places) {
  if (terms.filter(({ how }) => how === "like").length < 2) return Infinity;
  const own = terms.filter(({ how }) => how === "as is").flatMap(({ term }) => places(term));
  return own.length ? own.reduce((most, { score }) => Math.max(most, score), 0) : Infinity;
}

/**
 * A word that few lessons have tells more of what is asked for; one that none has tells nothing.
 * @param {Asked[]} wanted
 * @param {Map<string, Map<Asked, Match>>} found
 * @param {number} count of all lessons
 */
export function weigh(wanted, found, count) {
  const having = new Map(wanted.map((word) => [word, 0]));
  for (const matches of found.values()) for (const word of matches.keys()) having.set(word, having.get(word) + 1);
  for (const [word, some] of having) word.weight = some && Math.log(1 + count / some);
}
