/** A lesson's facts as inputs of a calculator: both use the same names. Pure. */
import { writeFragment } from "./fragment.js";

/**
 * @param {Record<string, any>} fields of a lesson
 * @returns {Record<string, string>} the parts of its groups, by name
 */
export function factsOf(fields) {
  const groups = ["cutter", "holding", "cutting", "geometry"].map((key) => fields[key] ?? {});
  const facts = Object.assign({}, ...groups);
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => typeof value === "string"));
}

/**
 * @param {{name: string, inputs: {name: string}[]}} calculator
 * @param {Record<string, string>} facts
 * @param {string} lesson
 * @returns {string} from the site's root
 */
export function sumAddress(calculator, facts, lesson) {
  const known = calculator.inputs.filter(({ name }) => name in facts).map(({ name }) => [name, facts[name]]);
  return `calculators/${calculator.name}/${writeFragment(Object.fromEntries(known), lesson)}`;
}
