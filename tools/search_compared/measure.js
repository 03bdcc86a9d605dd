/** What the page of the comparison does: opens one search, times it, and answers all questions. */

/** @param {string} engine @param {string} base @param {string} question */
export async function first(engine, base, question) {
  const start = performance.now();
  const { open } = await import(`/engines/${engine}.js`);
  const ask = await open(base);
  const found = await ask(question, 10);
  return { took: performance.now() - start, found: found.length };
}

/** @param {string} engine @param {string} base @param {string[]} questions @param {number} times */
export async function all(engine, base, questions, times) {
  const { open } = await import(`/engines/${engine}.js`);
  const ask = await open(base);
  const answers = [];
  const took = [];
  for (const question of questions) {
    answers.push(await ask(question, 10));
    const runs = [];
    for (let run = 0; run < times; run += 1) {
      const start = performance.now();
      await ask(question, 10);
      runs.push(performance.now() - start);
    }
    took.push(runs.sort((a, b) => a - b)[Math.floor(times / 2)]);
  }
  return { answers, took };
}
