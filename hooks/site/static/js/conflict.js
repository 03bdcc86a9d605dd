/** It was changed elsewhere while it was edited here: both versions, and a choice for each key. */
import { inLines } from "./changes.js";
import { fromTemplate, need } from "./site.js";

/**
 * @param {HTMLElement} place
 * @param {{key: string, label: string, stored: any, yours: any}[]} clashing
 * @param {(keepYours: Set<string>) => void} decided called with the keys whose own version is to be stored
 */
export function showConflict(place, clashing, decided) {
  const panel = fromTemplate("conflict-panel");
  const form = /** @type {HTMLFormElement} */ (need("form", panel));
  need(".conflict__keys", panel).append(...clashing.map(choice));
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const picked = new FormData(form);
    decided(new Set(clashing.map(({ key }) => key).filter((key) => picked.get(`keep-${key}`) === "yours")));
  });
  place.replaceChildren(panel);
  panel.focus();
}

/** @param {{key: string, label: string, stored: any, yours: any}} clash */
function choice({ key, label, stored, yours }) {
  const row = fromTemplate("conflict-key");
  need("legend", row).textContent = label;
  for (const [side, value] of Object.entries({ stored, yours })) {
    const half = need(`[data-side="${side}"]`, row);
    need("pre", half).textContent = inLines(value);
    /** @type {HTMLInputElement} */ (need("input", half)).name = `keep-${key}`;
  }
  return row;
}
