/** The brief beside a job's form: it follows what is typed, and only the newest question is answered. */
import { Briefs } from "./briefs.js";
import { need } from "./site.js";

const WAIT_MS = 250;
const AWAY = "No brief here just now: Python or the memory did not come in time. Saving works, and the job's page has its brief. ";
const NOTHING_YET = "The brief shows here as soon as there is something to go by.";

const told = need("#brief-status");

export class BriefBeside {
  /** @param {(brief: HTMLElement, job: Record<string, any>) => void} shown told of each new brief */
  constructor(shown) {
    this.shown = shown;
    this.briefs = new Briefs();
    /** @type {Record<string, any> | null} the newest job, while an older one is under way */
    this.next = null;
    this.busy = false;
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

  /** One question at a time: of those that come meanwhile only the newest is asked. @param {Record<string, any>} job */
  async follow(job) {
    this.next = job;
    if (this.busy) return;
    this.busy = true;
    while (this.next) {
      const mine = this.next;
      this.next = null;
      await this.tell(mine);
    }
    this.busy = false;
  }

  /** @param {Record<string, any>} job */
  async tell(job) {
    if (!job.material && !job.iso513 && !job.setups) return nothingYet();
    told.textContent = "Looking through the memory";
    try {
      const reply = await this.briefs.of(job);
      if (this.next) return;
      told.textContent = reply.ok ? "" : reply.message ?? "";
      this.show(reply.ok ? reply.brief : "", job);
    } catch {
      if (!this.next) this.away(job);
    }
  }

  /** An older brief is not left standing beside facts that it was not made for. @param {Record<string, any>} job */
  away(job) {
    need("#brief").replaceChildren();
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
