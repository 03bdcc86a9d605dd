/** Which tabs are open: so that a draft from a closed tab is picked up and one from an open tab is left. */
import { storageKey } from "./site.js";
import { tabName } from "./drafts.js";
import { newLessonId } from "./ids.js";

const WAIT_MS = 150;

/**
 * Opens the talk between tabs: this one answers to its name from now on.
 * @returns {Promise<{tab: string, open: Set<string>}>} this tab's name and those of the other open tabs
 */
export async function meetTabs() {
  const me = newLessonId();
  let tab = tabName();
  const open = new Set();
  const channel = new BroadcastChannel(storageKey("tabs"));
  channel.onmessage = ({ data }) => {
    if (data.from === me) return;
    if (data.hello) channel.postMessage({ from: me, tab });
    if (data.tab) open.add(data.tab);
  };
  channel.postMessage({ from: me, hello: true });
  await new Promise((resolve) => setTimeout(resolve, WAIT_MS));
  // A duplicated tab is born with its twin's name; it takes one of its own.
  if (open.has(tab)) {
    tab = me;
    sessionStorage.setItem(storageKey("tab"), tab);
  }
  return { tab, open };
}
