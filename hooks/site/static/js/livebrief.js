/** The brief beside the form of a job; it follows what is typed. */
import { Briefs } from "./briefs.js";
import { need } from "./site.js";

const WAIT_MS = 250;

const told = need("#brief-status");
const briefs = new Briefs();
let asked = 0;
let clock = 0;

/** @param {() => Record<string, any>} job asked for its fields once nobody has typed for a moment */
export function briefSoon(job) {
  clearTimeout(clock);
  clock = setTimeout(() => briefNow(job), WAIT_MS);
}

/** Only the newest question is answered. @param {() => Record<string, any>} job */
export async function briefNow(job) {
  asked += 1;
  const mine = asked;
  const fields = job();
  if (!fields.material && !fields.iso513 && !fields.setups) return;
  told.textContent = "Looking through the memory";
  try {
    const reply = await briefs.of(fields);
    if (mine !== asked) return;
    told.textContent = reply.ok ? "" : reply.message ?? "";
    if (reply.ok) need("#brief").innerHTML = reply.brief;
  } catch {
    told.textContent = "No brief here just now: Python did not start. Saving works, and the job's page has its brief.";
  }
}
