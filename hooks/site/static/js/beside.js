/** The brief beside a job's form: it follows what is typed, and only the newest question is answered. */
import { Briefs } from "./briefs.js";
import { need } from "./site.js";

const WAIT_MS = 250;
const NOTHING_YET = "The brief shows here as soon as there is something to go by.";

const told = need("#brief-status");

export class BriefBeside {
  /** @param {(brief: HTMLElement, job: Record<string, any>) => void} shown told of each new brief */
  constructor(shown) {
    this.shown = shown;
    this.briefs = new Briefs();
    this.asked = 0;
    this.clock = 0;
  }

  get python() {
    return this.briefs.python;
  }

  /** @param {() => Record<string, any>} read what is typed, once a pause was made */
  soon(read) {
    clearTimeout(this.clock);
    this.clock = setTimeout(() => this.follow(read()), WAIT_MS);
  }

  /** @param {string} html @param {Record<string, any>} job */
  show(html, job) {
    const place = need("#brief");
    place.innerHTML = html;
    this.shown(place, job);
  }

  /** The shop's list holds more than before: the brief is made with it. @param {Record<string, any>} job */
  anew(job) {
    this.briefs.renew();
    this.follow(job);
  }

  /** @param {Record<string, any>} job */
  async follow(job) {
    this.asked += 1;
    const mine = this.asked;
    if (!job.material && !job.iso513 && !job.setups) return nothingYet();
    told.textContent = "Looking through the memory";
    try {
      const reply = await this.briefs.of(job);
      if (mine !== this.asked) return;
      told.textContent = reply.ok ? "" : reply.message ?? "";
      if (reply.ok) this.show(reply.brief, job);
    } catch {
      told.textContent = "No brief here just now: Python did not start. Saving works, and the job's page has its brief.";
    }
  }
}

function nothingYet() {
  need("#brief").replaceChildren();
  told.textContent = NOTHING_YET;
}
