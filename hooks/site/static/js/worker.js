/**
 * Python beside the page: the same `calc` that made the pages, in a worker of its own.
 * Messages in: {id, name, typed, system}. Out: {ready}, {id, reply} or {failed, why}.
 */

/** The smallest module there is: where even this is refused, no runtime will start. */
const EMPTY_MODULE = new Uint8Array([0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00]);

/** @returns {Promise<(name: string, typed: string, system: string) => string>} `calc.page.respond` */
async function startPython() {
  new WebAssembly.Module(EMPTY_MODULE);
  const here = new URL("../../", import.meta.url);
  const { loadPyodide } = await import(new URL("pyodide/pyodide.mjs", here).href);
  const [python, archive] = await Promise.all([
    loadPyodide({ indexURL: new URL("pyodide/", here).href }),
    fetch(new URL("calc.zip", here)).then((reply) => reply.arrayBuffer()),
  ]);
  python.unpackArchive(archive, "zip");
  return python.pyimport("calc.page").respond;
}

const respond = startPython();
respond.then(
  () => postMessage({ ready: true }),
  (error) => postMessage({ failed: true, why: String(error) }),
);

onmessage = async ({ data: { id, name, typed, system } }) => {
  try {
    postMessage({ id, reply: (await respond)(name, typed, system) });
  } catch (error) {
    postMessage({ failed: true, why: String(error) });
  }
};
