/** {files, columns, asked, atMost} as JSON on standard input: ranks by facts in the browser's Python, under Node. */
import { readFileSync } from "node:fs";
import { loadPyodide } from "pyodide";

const { files, columns, asked, atMost } = JSON.parse(readFileSync(0, "utf8"));
const python = await loadPyodide();
for (const [path, text] of Object.entries(files)) {
  python.FS.mkdirTree(`/lib/ours/${path}`.replace(/\/[^/]+$/, ""));
  python.FS.writeFile(`/lib/ours/${path}`, text);
}
const code = `
import dataclasses, json, sys, time
sys.path.insert(0, "/lib/ours")
from hooks.shop import match
known, asked = json.loads(columns), json.loads(asked)
found, took = [], []
for facts in asked:
    start = time.perf_counter()
    found.append([dataclasses.astuple(one) for one in match.rank(known, facts, at_most)])
    took.append(time.perf_counter() - start)
json.dumps({"found": found, "fastest": min(took)})
`;
const given = { columns: JSON.stringify(columns), asked: JSON.stringify(asked), at_most: atMost };
process.stdout.write(python.runPython(code, { globals: python.toPy({ __name__: "asked", ...given }) }));
