/** {fields, documents} as JSON on standard input, Lunr's index on standard output. Run where lunr is installed. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const lunr = createRequire(join(process.cwd(), "here.js"))("lunr");
const { fields, documents } = JSON.parse(readFileSync(0, "utf8"));
const index = lunr(function build() {
  this.ref("id");
  for (const [name, boost] of Object.entries(fields)) this.field(name, { boost });
  for (const document of documents) this.add(document);
});
process.stdout.write(JSON.stringify(index));
