/**
 * Compiles the browser's standard library: node stdlib.mjs FOLDER. The package brings it as source, and reading that is
 * more than half of every start. What a start imports becomes bytecode; the rest stays source, which is smaller.
 * Written is FOLDER/python_stdlib-VERSION.zip: bytecode is good for this very Pyodide alone.
 */
import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { loadPyodide, version } from "pyodide";

const COMPILE = `
import importlib._bootstrap_external as external
import sys, zipfile
import bisect, decimal, difflib, fractions, functools, heapq, html, itertools, json, operator, re, statistics
import dataclasses, typing, unicodedata, urllib.parse  # as calc and hooks.brief do

HOME = "/lib/python{}{}.zip/".format(*sys.version_info)
BEGINNING = (1980, 1, 1, 0, 0, 0)  # of time, for an archive
origins = [getattr(one.__spec__, "origin", None) for one in sys.modules.values() if getattr(one, "__spec__", None)]
used = {one.removeprefix(HOME) for one in origins if one}

def bytecode(name, source):
    code = compile(source, HOME + name, "exec", dont_inherit=True)
    return external._code_to_hash_pyc(code, bytes(8), False)  # never compared with a source: there is none

with zipfile.ZipFile("/sources.zip") as sources, zipfile.ZipFile("/compiled.zip", "w", zipfile.ZIP_DEFLATED) as compiled:
    for name in sources.namelist():
        content, suffix = (bytecode(name, sources.read(name)), "c") if name in used else (sources.read(name), "")
        compiled.writestr(zipfile.ZipInfo(name + suffix, BEGINNING), content, zipfile.ZIP_DEFLATED)
`;

const folder = process.argv[2];
const sources = join(fileURLToPath(import.meta.resolve("pyodide")), "..", "python_stdlib.zip");
const python = await loadPyodide();
python.FS.writeFile("/sources.zip", new Uint8Array(readFileSync(sources)));
python.runPython(COMPILE);
const out = join(folder, `python_stdlib-${version}.zip`);
mkdirSync(folder, { recursive: true });
writeFileSync(`${out}.new`, python.FS.readFile("/compiled.zip"));
renameSync(`${out}.new`, out);
process.exit(0);
