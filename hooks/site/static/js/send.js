/** The save endpoint as this page sees it: hello, whatever was drafted, a spreadsheet. Never throws. */
import { KINDS } from "./kinds.js";
import { root } from "./site.js";

const PATIENCE_MS = 15000;
const SHEET_PATIENCE_MS = 180000; // thousands of rows, each safe on disk before the answer

/**
 * @typedef {{token: string, build: string, writable: boolean, shop: string, demo: boolean}} Hello
 * @typedef {{field: string, text: string}} Problem
 * @typedef {{how: "saved", id: string, hash: string, url: string}
 *   | {how: "invalid", problems: Problem[]}
 *   | {how: "conflict", hash: string}
 *   | {how: "missing"}
 *   | {how: "refused", text: string}
 *   | {how: "away"}} Outcome   "away": no server took it; nothing is known to be stored
 */

/** @returns {Promise<Hello | null>} null on a published site, or when the server is away */
export async function hello() {
  try {
    const reply = await ask("api/hello", {});
    return reply.ok ? await reply.json() : null;
  } catch {
    return null;
  }
}

/**
 * @param {Pick<import("./drafts.js").Draft, "id"|"kind"|"of"|"base"|"fields">} draft sending twice stores once
 * @returns {Promise<Outcome>}
 */
export function saveDraft({ id, kind, of, base = "", fields }) {
  const { api, edits } = KINDS[kind];
  if (!edits) return post(api, { id, fields });
  return post(kind === "settings" ? api : `${api}/${of}`, { base, changes: fields });
}

/**
 * A spreadsheet, to be looked at or taken in.
 * @param {string} path
 * @param {Record<string, any>} body
 * @returns {Promise<{how: "done", said: any} | {how: "refused", text: string} | {how: "away"}>}
 */
export async function sendSheet(path, body) {
  const answer = await posted(path, body, SHEET_PATIENCE_MS);
  if (!answer) return { how: "away" };
  if (answer.status === 200) return { how: "done", said: answer.said };
  return { how: "refused", text: answer.said.error ?? `the server answered ${answer.status}` };
}

/**
 * @param {string} path
 * @param {RequestInit} options
 * @param {number} [patience]
 */
function ask(path, options, patience = PATIENCE_MS) {
  const signal = AbortSignal.timeout(patience);
  return fetch(new URL(path, root()), { cache: "no-store", signal, ...options });
}

/**
 * @param {string} path
 * @param {any} body
 * @returns {Promise<Outcome>}
 */
async function post(path, body) {
  const answer = await posted(path, body, PATIENCE_MS);
  return answer ? outcome(answer.status, answer.said) : { how: "away" };
}

/**
 * @param {string} path
 * @param {any} body
 * @param {number} patience
 * @returns {Promise<{status: number, said: any} | null>} null where no server took it
 */
async function posted(path, body, patience) {
  // Two goes: a server that was started anew has a new token, and hello tells it.
  for (let go = 0; go < 2; go += 1) {
    const server = await hello();
    if (!server?.writable) return null;
    try {
      const reply = await ask(path, {
        method: "POST",
        headers: { "Content-Type": "application/json", "X-Shop-Token": server.token },
        body: JSON.stringify(body),
      }, patience);
      if (reply.status !== 403 || go) return { status: reply.status, said: await reply.json().catch(() => ({})) };
    } catch {
      return null;
    }
  }
  return null;
}

/**
 * What an answer of the endpoint means. Pure.
 * @param {number} status
 * @param {any} said
 * @returns {Outcome}
 */
export function outcome(status, said) {
  if (status === 200 || status === 201) return { how: "saved", id: said.id, hash: said.hash, url: said.url };
  if (status === 409) return { how: "conflict", hash: said.hash };
  if (status === 404) return { how: "missing" };
  if (status === 400 && said.problems?.length) return { how: "invalid", problems: said.problems };
  return { how: "refused", text: said.error ?? `the server answered ${status}` };
}
