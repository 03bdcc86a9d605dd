/**
 * The one script of every page: loads what this page needs, then watches for newer pages.
 * A page's module exports `start()`, which may return `busy`, telling that somebody is in the middle of
 * something there, and `watch: false` where newer pages do not matter.
 */
import { watchBuilds } from "./watch.js";

/** @type {Record<string, () => Promise<{start: () => any}>>} */
const PAGES = {
  record: () => import("./record.js"),
  edit: () => import("./edit.js"),
  find: () => import("./find.js"),
  lesson: () => import("./next.js"),
  shop: () => import("./shopform.js"),
  jobs: () => import("./jobs.js"),
  job: () => import("./job.js"),
  "job-form": () => import("./jobform.js"),
  import: () => import("./import.js"),
  calculator: () => import("./calculator.js"),
};

/** Somebody is in a field, or has changed one. */
function typing() {
  const where = document.activeElement;
  return where instanceof HTMLInputElement || where instanceof HTMLTextAreaElement || where instanceof HTMLSelectElement;
}

const load = PAGES[document.body.dataset.page ?? ""];
const page = load ? await (await load()).start() : null;
const pageBusy = typeof page?.busy === "function" ? page.busy : () => false;
document.documentElement.dataset.ready = "yes";
if (page?.watch !== false) await watchBuilds(() => typing() || pageBusy());
