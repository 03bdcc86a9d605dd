/** What a calculator's page says where Python cannot run. */

/**
 * @param {string} name of the calculator
 * @param {Record<string, string>} inputs
 * @returns {string} the same sum for a terminal. Pure.
 */
export function commandLine(name, inputs) {
  const quoted = (/** @type {string} */ text) => `'${text.replaceAll("'", "'\\''")}'`;
  const words = Object.entries(inputs).map(([key, value]) => quoted(`${key}=${value}`));
  return ["python3 -m calc", name, ...words].join(" ");
}

/**
 * @param {string} name of the calculator
 * @param {Record<string, string>} inputs
 * @param {() => void} again
 * @returns {Node[]} words, the command line, and a button that tries again
 */
export function sumsAway(name, inputs, again) {
  const line = document.createElement("code");
  line.textContent = commandLine(name, inputs);
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button button--quiet";
  button.textContent = "Try again";
  button.addEventListener("click", again);
  const why = "The sums did not start in time in this browser (they need WebAssembly). Try again, or work it out in a "
    + "terminal, in the folder of this project. The answer shown is not for your numbers. ";
  return [document.createTextNode(why), line, document.createTextNode(" "), button];
}
