/** The brief beside a job's form: it follows what is typed, and only the newest question is answered. */
import { Briefs } from "./briefs.js";
import { need } from "./site.js";

const WAIT_MS = 250;
const AWAY = "No brief here just now: Python did not start in time. Saving works, and the job's page has its brief. ";
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

  /** Python starts while somebody types; where it cannot, that is told once a brief is asked for. */
  ready() {
    this.briefs.begin().catch(() => {});
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
      if (mine === this.asked) this.away(job);
    }
  }

  /** @param {Record<string, any>} job */
  away(job) {
    const again = document.createElement("button");
    again.type = "button";
    again.className = "button button--quiet";
    again.textContent = "Try again";
    again.addEventListener("click", () => {
      this.python.patience *= 2;
      this.follow(job);
    });
    told.replaceChildren(AWAY, again);
  }
}

function nothingYet() {
  need("#brief").replaceChildren();
  told.textContent = NOTHING_YET;
}
