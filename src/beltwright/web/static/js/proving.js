// A line that a drive has found, written into the build file.

import { save } from "./build.js";
import { say } from "./notice.js";

export function startProving() {
  document.addEventListener("click", written);
}

async function written(event) {
  const button = event.target.closest("[data-writes]");
  if (!button) return;
  const { key, value } = JSON.parse(button.dataset.writes);
  try {
    await save([{ key, text: value }], "as the drive showed");
    say("Written. The plan counts with it now; undo takes it back.");
  } catch (refused) {
    say(refused.sentence ?? String(refused), true);
  }
}
