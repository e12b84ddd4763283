// Lets an earlier version stand again.

import { complain } from "./notice.js";
import { send } from "./server.js";

const { name, version } = JSON.parse(document.getElementById("build-data").textContent);

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
