/** Where this page lives: addresses relative to the site's root, data files, remembered choices. */

const LONGEST_MS = 60000;

/** @returns {URL} the root of the site, whatever sub-path it is served under */
export function root() {
  const base = document.documentElement.dataset.base ?? "."; // "" on a page that may stand at any address
  return new URL(`${base}/`, document.baseURI);
}

/**
 * @param {string} path address from the site's root, e.g. "lessons/ID/"
 * @returns {string}
 */
export function address(path) {
  return new URL(path, root()).href;
}

/**
 * A data file, never from the browser's cache: a lesson saved a moment ago must be in it.
 * @param {string} path
 * @returns {Promise<any>} null where there is no such file or no way to it
 */
export async function data(path) {
  try {
    const reply = await fetch(address(path), { cache: "no-cache", signal: AbortSignal.timeout(LONGEST_MS) });
    return reply.ok ? await reply.json() : null;
  } catch {
    return null;
  }
}

/**
 * @param {string} path a page's address from the site's root
 * @returns {Promise<boolean>}
 */
export async function isThere(path) {
  try {
    return (await fetch(address(path), { method: "HEAD", cache: "no-cache" })).ok;
  } catch {
    return false;
  }
}

/**
 * Storage keys carry the site's path: two shops on one host do not mix their drafts.
 * @param {string} name
 */
export function storageKey(name) {
  return `twice-shy:${root().pathname}:${name}`;
}

/**
 * A choice remembered on this device; nothing where the browser keeps nothing.
 * @param {string} name
 * @returns {any}
 */
export function remembered(name) {
  try {
    return JSON.parse(localStorage.getItem(storageKey(name)) ?? "null");
  } catch {
    return null;
  }
}

/**
 * @param {string} name
 * @param {any} value plain JSON
 */
export function remember(name, value) {
  try {
    localStorage.setItem(storageKey(name), JSON.stringify(value));
  } catch {
    // A browser that keeps nothing still records; it only forgets its habits.
  }
}

/**
 * A copy of the first element of a `<template>` of this page.
 * @param {string} id
 * @returns {HTMLElement}
 */
export function fromTemplate(id) {
  const template = /** @type {HTMLTemplateElement} */ (document.getElementById(id));
  return /** @type {HTMLElement} */ (template.content.firstElementChild?.cloneNode(true));
}

/**
 * @template {HTMLElement} T
 * @param {string} selector
 * @param {ParentNode} [inside]
 * @returns {T}
 */
export function need(selector, inside = document) {
  const found = inside.querySelector(selector);
  if (!found) throw new Error(`this page lacks ${selector}`);
  return /** @type {T} */ (found);
}
