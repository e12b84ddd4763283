// Lets an earlier version stand again.

import { complain } from "./notice.js";
import { send } from "./server.js";

const { name, version } = JSON.parse(document.getElementById("build-data").textContent);

// Times as this machine's clock shows them, not as the file counts them.
function tellTimes() {
  for (const time of document.querySelectorAll("time")) {
    time.textContent = new Date(time.dateTime).toLocaleString("sv", { dateStyle: "short", timeStyle: "short" });
  }
}

tellTimes();
document.addEventListener("htmx:after:swap", tellTimes);

document.addEventListener("click", async (event) => {
  const to = event.target.closest("[data-restore]")?.dataset.restore;
  if (!to) return;
  try {
    await send(`builds/${encodeURIComponent(name)}/restore`, { version, to });
    location.assign(`/b/${encodeURIComponent(name)}/check`);
  } catch (refused) {
    complain(refused);
  }
});
