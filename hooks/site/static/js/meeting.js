/** Saving an edit although somebody stored another version meanwhile: what only one side changed holds. */
import { applied, meet, namedLists } from "./changes.js";
import { KINDS } from "./kinds.js";
import { saveDraft } from "./send.js";
import { data } from "./site.js";

/**
 * @typedef {import("./send.js").Outcome & {
 *   fields?: Record<string, any>, now?: Record<string, any>, clashing?: import("./changes.js").Clash[]}} Met
 *   "saved": `fields` is all that is stored; "conflict": what is stored `now`, and what both sides changed
 */

/**
 * @param {import("./drafts.js").Draft} draft as it is at this moment; it stays as it is
 * @returns {Promise<Met>}
 */
export async function saveMet(draft) {
  const { kind, of = "", was = {}, fields } = draft;
  let from = { hash: draft.base ?? "", fields: was };
  let changes = fields;
  for (;;) {
    const sent = Object.keys(changes).length
      ? await saveDraft({ ...draft, base: from.hash, fields: changes })
      : /** @type {Met} */ ({ how: "saved", id: of, hash: from.hash, url: KINDS[kind].page(of) });
    if (sent.how === "saved") return { ...sent, fields: applied(from.fields, changes) };
    if (sent.how !== "conflict" || !KINDS[kind].edits) return sent;
    const now = await data(KINDS[kind].data(of));
    if (!now || now.hash === from.hash) return sent; // its page is not new yet
    const declared = await data("data/declaration.json");
    const met = meet(was, now.fields, fields, namedLists(declared?.[KINDS[kind].fields] ?? []));
    if (met.clashing.length) return { ...sent, now: now.fields, clashing: met.clashing };
    from = now;
    changes = met.changes;
  }
}
