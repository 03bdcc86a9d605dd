/** Asks the server, while the page is looked at, whether newer pages are ready. */
import { hello } from "./send.js";

const EVERY_MS = 3000;

/**
 * @param {() => boolean} busy true while somebody types here, or a draft is open on this page
 */
export async function watchBuilds(busy) {
  const first = await hello();
  if (!first) return;
  const timer = setInterval(async () => {
    if (document.visibilityState !== "visible") return;
    const now = await hello();
    if (!now || now.build === first.build) return;
    if (!busy()) return location.reload();
    clearInterval(timer);
    tellNewer();
  }, EVERY_MS);
}

/** One quiet line at the end of the page: nothing moves under a finger. */
function tellNewer() {
  const line = document.createElement("p");
  line.className = "notice notice--newer";
  line.setAttribute("role", "status");
  line.textContent = "Newer pages are ready. They show when you next open a page; what you typed stays.";
  document.querySelector("main")?.append(line);
}
