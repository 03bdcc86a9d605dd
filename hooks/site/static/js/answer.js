/** The newest answer of a sum takes the place of the one before. */

/**
 * What was unfolded stays so, and a keyboard that stood in the answer stays in it.
 * @param {HTMLElement} place
 * @param {string} html escaped by calc.present, which makes the baked answer too
 */
export function putAnswer(place, html) {
  const open = Array.from(place.querySelectorAll("details"), (fold) => fold.open);
  const inside = place.contains(document.activeElement);
  place.innerHTML = html;
  place.querySelectorAll("details").forEach((fold, at) => { fold.open = open[at] ?? fold.open; });
  delete place.dataset.baked;
  if (inside) /** @type {HTMLElement | null} */ (place.querySelector("button, summary"))?.focus({ preventScroll: true });
}
