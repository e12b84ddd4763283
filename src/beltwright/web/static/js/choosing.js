// The search for other parts: started, watched, stopped, and one of its options taken.

import { address, build, change, onShown, save } from "./build.js";
import { startMap } from "./idler_map.js";
import { complain, say } from "./notice.js";
import { showOptions } from "./options.js";
import { ask, remove, send } from "./server.js";

const EVERY = 400; // ms between two looks

let job = null;

export function startChoosing() {
  if (!document.getElementById("search")) return;
  document.getElementById("search-start").addEventListener("click", start);
  document.getElementById("search-stop").addEventListener("click", stop);
  document.getElementById("search").addEventListener("apply", (event) => apply(event.detail));
  onShown(() => {
    const found = document.getElementById("search-found");
    if (job && build.version !== job.version && found.firstChild) {
      found.replaceChildren();
      progress("The build has changed since. Look again.");
      job = null;
    }
  });
  document.addEventListener("click", leaveOpen);
  startMap();
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

async function start() {
  try {
    const started = await send(address("/choose"), { version: build.version });
    job = { id: started.job, version: build.version };
    running(true);
    document.getElementById("search-found").replaceChildren();
    watch();
  } catch (refused) {
    progress(refused.sentence ?? String(refused));
  }
}

async function watch() {
  try {
    const state = await ask(address(`/choose/${job.id}`));
    if (state.state === "running") {
      progress(told(state.progress), state.progress);
      setTimeout(watch, EVERY);
      return;
    }
    running(false);
    progress(state.reason);
    if (state.found) showOptions(state.found);
  } catch (refused) {
    running(false);
    progress(refused.sentence ?? String(refused));
  }
}

async function stop() {
  try {
    await remove(address(`/choose/${job.id}`));
  } catch (refused) {
    complain(refused);
  }
}

async function apply(option) {
  try {
    await change(`/choose/${job.id}/apply`, { option });
    progress(`Option ${option} stands in the build file. Undo brings back what was.`);
    say(`Option ${option} taken.`);
  } catch (refused) {
    complain(refused);
  }
}

function running(yes) {
  document.getElementById("search-start").disabled = yes;
  document.getElementById("search-stop").hidden = !yes;
  document.getElementById("search-bar").hidden = !yes;
}

function progress(words, state = null) {
  const line = document.getElementById("search-progress");
  line.textContent = words;
  line.hidden = !words;
  const bar = document.getElementById("search-bar");
  if (state?.candidates) {
    bar.max = state.candidates;
    bar.value = state.disposed;
  }
}

function told(state) {
  if (!state.candidates) return "Reading what may be another …";
  const left = state.seconds_left === null ? "" : `, about ${Math.ceil(state.seconds_left)} s left`;
  const count = (number) => number.toLocaleString("en");
  return `${count(state.disposed)} of ${count(state.candidates)} worked out, ${state.fitting} fit${left}.`;
}
