// Hears of changes that an editor or another page makes to the file. Only a page that is looked at
// listens: a browser keeps few lines open to one place.

import { address, catchUp } from "./build.js";
import { complain, say } from "./notice.js";

const AGAIN = 1000; // ms until a line that was refused is tried again

let line = null;

export function startNews() {
  document.addEventListener("visibilitychange", () => (document.hidden ? hangUp() : listen()));
  addEventListener("pagehide", hangUp);
  if (!document.hidden) listen();
}

function listen() {
  if (line) return;
  line = new EventSource(`/api/${address("/events")}`);
  line.addEventListener("error", retry);
  line.addEventListener("changed", async (event) => {
    try {
      const news = await catchUp(JSON.parse(event.data).version);
      if (news) say("The build file was changed elsewhere. This is how it stands now.");
    } catch (refused) {
      complain(refused);
    }
  });
}

// A browser calls again by itself after a broken line, but not after a refused one: as when the
// page asked in the blink in which an editor had emptied the file to write it anew.
function retry() {
  if (line?.readyState !== EventSource.CLOSED) return;
  line = null;
  setTimeout(() => !document.hidden && listen(), AGAIN);
}

function hangUp() {
  line?.close();
  line = null;
}
