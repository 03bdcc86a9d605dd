/** After a save, the lesson's page asks at most three questions, one tap each. */
import { saveDraft } from "./send.js";
import { data, fromTemplate, need } from "./site.js";

const QUESTIONS = ["stage", "operation", "could_have"];

/** @returns {Promise<{busy: () => boolean} | undefined>} */
export async function start() {
  const place = document.getElementById("next-questions");
  if (!place || location.hash !== "#next") return undefined;
  history.replaceState(null, "", location.pathname);
  const [lesson, declared] = await Promise.all([data(`data/lesson/${place.dataset.lesson}.json`), data("data/declaration.json")]);
  const open = QUESTIONS.filter((key) => lesson && declared && !(key in lesson.fields));
  place.hidden = false;
  let asking = open.length > 0;
  askAll(place, lesson, declared, open).then(() => { asking = false; });
  return { busy: () => asking };
}

/**
 * @param {HTMLElement} place
 * @param {any} lesson {id, hash, fields}
 * @param {any} declared the declaration
 * @param {string[]} open keys still to be asked
 */
async function askAll(place, lesson, declared, open) {
  let hash = lesson?.hash;
  for (const key of open) {
    const word = await ask(place, declared, key);
    if (!word) continue;
    const sent = await saveDraft({ id: "", kind: "edit", of: lesson.id, base: hash, fields: { [key]: word } });
    if (sent.how !== "saved") return tellUnsaved(place);
    hash = sent.hash;
  }
  if (hash !== lesson?.hash) return location.reload();
  need(".next__cards", place).replaceChildren();
}

/**
 * @param {HTMLElement} place
 * @param {any} declared
 * @param {string} key
 * @returns {Promise<string>} the word tapped; empty where it was skipped
 */
function ask(place, declared, key) {
  const field = declared.fields.find((/** @type {any} */ one) => one.key === key);
  const card = fromTemplate("next-card");
  need(".card__question", card).textContent = field.label;
  need(".field__help", card).textContent = field.help;
  const answers = need(".card__answers", card);
  return new Promise((resolve) => {
    for (const word of declared.vocabularies[field.of].words) {
      const chip = fromTemplate("next-chip");
      chip.textContent = word.label;
      chip.dataset.word = word.key;
      chip.addEventListener("click", () => resolve(word.key));
      answers.append(chip);
    }
    need(".card__skip", card).addEventListener("click", () => resolve(""));
    need(".next__cards", place).replaceChildren(card);
    card.focus({ preventScroll: true });
  });
}

/** @param {HTMLElement} place */
function tellUnsaved(place) {
  need(".next__cards", place).replaceChildren();
  need(".next__told", place).textContent = "That answer was not saved. Complete the lesson from its edit page.";
}
