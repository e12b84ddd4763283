// Undo and redo, by button and by key.

import { change } from "./build.js";
import { complain, say } from "./notice.js";

export function startTurns() {
  document.getElementById("undo").addEventListener("click", () => turn("undo"));
  document.getElementById("redo").addEventListener("click", () => turn("redo"));
  document.addEventListener("keydown", (event) => {
    const typing = event.target.matches?.("input, textarea, select") || document.querySelector("dialog[open]");
    if (!(event.ctrlKey || event.metaKey) || typing) return;
    const key = event.key.toLowerCase();
    if (key === "z" || key === "y") {
      event.preventDefault();
      turn(key === "y" || event.shiftKey ? "redo" : "undo");
    }
  });
}

async function turn(way) {
  try {
    await change(`/${way}`);
    say(way === "undo" ? "Undone." : "Redone.");
  } catch (refused) {
    complain(refused);
  }
}

export function showTurns(shown) {
  document.getElementById("undo").disabled = !shown.canUndo;
  document.getElementById("redo").disabled = !shown.canRedo;
}
