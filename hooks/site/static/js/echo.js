/** Similar past lessons beside the line that is being typed. */
import { fromTemplate, need } from "./site.js";

const AT_MOST = 4;
const FEWEST_LETTERS = 4;
let asked = 0;

/**
 * @param {string} text what has been typed so far
 * @param {HTMLElement} place its list is filled; only the newest question is answered
 */
export async function showSimilar(text, place) {
  asked += 1;
  const mine = asked;
  const found = text.length < FEWEST_LETTERS ? [] : await lookUp(text);
  if (mine !== asked) return;
  need("ol", place).replaceChildren(...found.map(entry));
  need(".similar__none", place).hidden = found.length > 0;
}

/** @param {string} text */
async function lookUp(text) {
  try {
    const { similarTo } = await import("./similar.js");
    return await similarTo(text, AT_MOST);
  } catch {
    return []; // Recording never waits for the search: without an index there is no echo.
  }
}

/** @param {{id: string, title: string, url: string, why: string}} lesson */
function entry(lesson) {
  const item = fromTemplate("similar-lesson");
  const link = need("a", item);
  link.setAttribute("href", lesson.url);
  link.textContent = lesson.title;
  need(".similar__why", item).textContent = lesson.why;
  return item;
}
