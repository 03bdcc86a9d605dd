/** Bringing in a spreadsheet: the file goes to the server on this machine, which says what would become of it. */
import { columnPlaces, forgetSheet, said, showColumns, showWords } from "./sheetform.js";
import { showTold } from "./sheettold.js";
import { hello, sendSheet } from "./send.js";
import { address, need } from "./site.js";

const form = /** @type {HTMLFormElement} */ (need("#import"));
const file = /** @type {HTMLInputElement} */ (need("#import-file"));
const status = need("#import-status");
const done = need("#import-done");
const go = /** @type {HTMLButtonElement} */ (need("#import-go"));
let sheet = "";
let asked = 0;

/** @returns {Promise<{watch: boolean}>} newer pages do not matter here, and the import itself makes some */
export async function start() {
  const server = await hello();
  need("#import-away").hidden = Boolean(server?.writable);
  form.hidden = !server?.writable;
  file.addEventListener("change", chosen);
  form.addEventListener("change", (event) => event.target !== file && sheet && look());
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    bringIn();
  });
  return { watch: false };
}

/** A new file: what was said of the last one is forgotten. */
async function chosen() {
  const one = file.files?.[0];
  sheet = "";
  need("#import-told").hidden = true;
  done.textContent = "";
  forgetSheet();
  if (!one) return;
  if (one.size > Number(file.dataset.largest)) {
    status.textContent = "That file is too large. Save its rows in two or more files.";
    return;
  }
  sheet = await base64(one);
  await look();
}

/**
 * @param {Blob} one
 * @returns {Promise<string>} its bytes in base64
 */
function base64(one) {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result).replace(/^[^,]*,/, ""));
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(one);
  });
}

/** Asks what would become of the sheet; an answer that a later question has overtaken is dropped. */
async function look() {
  asked += 1;
  const mine = asked;
  go.disabled = true;
  status.textContent = "Reading the sheet";
  const answer = await sendSheet("api/import/preview", { sheet, ...said() });
  if (mine !== asked) return;
  status.textContent = WHY[answer.how](answer);
  if (answer.how !== "done") return;
  if (!columnPlaces().length) showColumns(answer.said.columns);
  showWords(answer.said.unknown);
  showTold(answer.said);
  need("#import-told").hidden = false;
  go.disabled = !answer.said.ready || !answer.said.new;
}

async function bringIn() {
  if (go.disabled) return;
  form.inert = true;
  done.textContent = "Importing";
  const answer = await sendSheet("api/import", { sheet, ...said() });
  form.inert = false;
  done.textContent = answer.how === "done" ? "" : WHY[answer.how](answer);
  if (answer.how !== "done") return;
  sheet = "";
  file.value = "";
  need("#import-told").hidden = true;
  const link = Object.assign(document.createElement("a"), { href: address("find/"), textContent: "Look at them" });
  done.append(`${answer.said.imported.length} lessons imported. `, link);
  done.tabIndex = -1;
  done.focus();
}

/** What is told beside the file. @type {Record<string, (answer: any) => string>} */
const WHY = {
  done: ({ said }) => `${said.rows} rows, parted by ${said.parted}, read as ${said.letters}.`,
  away: () => "The program does not answer. Nothing was written that it has not told of; start it and try again.",
  refused: ({ text }) => `This cannot be taken: ${text}`,
};
