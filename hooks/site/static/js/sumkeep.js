/** What was typed into a sum, and the thing picked from the shop has a place for and lacks, may be kept there. */
import { offerToKeep } from "./keep.js";
import { offerFor } from "./keeping.js";
import { data, need } from "./site.js";

/**
 * @param {Record<string, string>} inputs of the sum
 * @param {Set<string>} touched the boxes somebody typed in: a worked example's numbers are nobody's
 * @param {Map<string, any>} picked what was picked from the shop, by kind
 */
export async function offerWhatIsNew(inputs, touched, picked) {
  if (!picked.size) return;
  const fields = (await data("data/declaration.json"))?.shop_fields ?? [];
  const typed = Object.fromEntries(Object.entries(inputs).filter(([key]) => touched.has(key)));
  const things = [...picked].filter(([kind, thing]) => thing.key || kind === "saw");
  const offers = things.flatMap(([kind, thing]) => offerFor(typed, kind, thing, fields) ?? []);
  const kept = () => offers.forEach(({ kind, values }) => Object.assign(picked.get(kind), values));
  await offerToKeep(need("#to-keep"), offers, fields, kept);
}
