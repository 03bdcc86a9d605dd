/**
 * Python beside the page: the same `calc` that made the pages, in a worker of its own.
 * Messages in: {id, name, typed, system}; {id, known} once and then {id, job, base} for briefs; {id, text, quantity} for one
 * number of a form. Out: {ready}, {id, reply} or {failed, why}.
 */

/** The smallest module there is: where even this is refused, no runtime will start. */
const EMPTY_MODULE = new Uint8Array([0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00]);

/** @returns {Promise<any>} the runtime, with our source unpacked in it */
async function startPython() {
  new WebAssembly.Module(EMPTY_MODULE);
  const here = new URL("../../", import.meta.url);
  const { loadPyodide } = await import(new URL("pyodide/pyodide.mjs", here).href);
  const [python, archive] = await Promise.all([
    loadPyodide({ indexURL: new URL("pyodide/", here).href }),
    fetch(new URL("calc.zip", here)).then((reply) => reply.arrayBuffer()),
  ]);
  python.unpackArchive(archive, "zip");
  return python;
}

const python = startPython();
const page = python.then((running) => running.pyimport("calc.page"));
/** @type {{desk: any}} what the brief knows, once a page has laid it there */
const laid = { desk: null };
page.then(
  () => postMessage({ ready: true }),
  (error) => postMessage({ failed: true, why: String(error) }),
);

/** @param {{known: string}} asked the memory, as JSON; answered by true */
async function layOut({ known }) {
  laid.desk = (await python).pyimport("hooks.brief.respond").Desk(known);
  return "true";
}

onmessage = async ({ data: { id, ...asked } }) => {
  try {
    const reply = asked.known ? await layOut(asked)
      : asked.job ? laid.desk.answer(asked.job, asked.base)
        : asked.quantity ? (await page).fault(asked.text, asked.quantity)
          : (await page).respond(asked.name, asked.typed, asked.system);
    postMessage({ id, reply });
  } catch (error) {
    postMessage({ failed: true, why: String(error) });
  }
};
