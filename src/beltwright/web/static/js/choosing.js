// The search for other parts: started, watched, stopped, and one of its options taken.

import { save } from "./build.js";
import { startMap } from "./idler_map.js";
import { startNewIdler } from "./new_idler.js";
import { complain, say } from "./notice.js";
import { showOptions } from "./options.js";
import { Searching } from "./searching.js";

export function startChoosing() {
  if (!document.getElementById("search")) return;
  const share = (state) => (state.candidates ? state.disposed / state.candidates : 0);
  const search = new Searching("search", "/choose", { told, share, show: showOptions });
  document.getElementById("search-start").addEventListener("click", () => search.start());
  document.getElementById("search").addEventListener("apply", (event) => apply(search, event.detail));
  document.addEventListener("click", leaveOpen);
  startMap();
  startNewIdler();
}

async function leaveOpen(event) {
  const row = event.target.closest("[data-leaves-open]")?.dataset.leavesOpen;
  if (!row) return;
  try {
    await save([{ key: "choose.vary", text: JSON.parse(row) }], "left open");
  } catch (refused) {
    complain(refused);
  }
}

async function apply(search, option) {
  if (!(await search.take(option))) return;
  search.say(`Option ${option} stands in the build file. Undo brings back what was.`);
  say(`Option ${option} taken.`);
}

function told(state) {
  if (!state.candidates) return "Reading what may be another …";
  const left = state.seconds_left === null ? "" : `, about ${Math.ceil(state.seconds_left)} s left`;
  const count = (number) => number.toLocaleString("en");
  return `${count(state.disposed)} of ${count(state.candidates)} worked out, ${state.fitting} fit${left}.`;
}
