/** The list of jobs: what was described elsewhere and given out as a file is offered here too. */
import { offerKept } from "./kept.js";
import { need } from "./site.js";

export function start() {
  offerKept(need("#kept"));
}
