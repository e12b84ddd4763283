// What the thing under the pointer or the focus measures, in a line on the drawing.

import { build, seenFrom } from "./build.js";
import { keysOf } from "./moving.js";
import { valueAt } from "./values.js";

const OWN = ["outside", "pitch", "height"];

export function startPointing() {
  const board = document.getElementById("board");
  for (const come of ["pointerover", "focusin"]) board.addEventListener(come, tell);
  for (const go of ["pointerleave", "focusout"]) board.addEventListener(go, hush);
}

function tell(event) {
  const thing = event.target.closest?.("[data-drag], [data-key]");
  const words = thing ? measured(thing) : "";
  const tip = document.getElementById("tip");
  tip.textContent = words;
  tip.hidden = !words;
}

function hush() {
  document.getElementById("tip").hidden = true;
}

function measured(thing) {
  const { name, key, drag } = thing.dataset;
  const parts = [];
  if (drag) {
    const [x, aside] = keysOf(thing).map((each) => each && valueAt(build.values, each));
    if (x) parts.push(`x ${x}`);
    parts.push(`${seenFrom() === "above" ? "y" : "z"} ${aside}`);
  }
  const own = key ? valueAt(build.values, key) : undefined;
  if (typeof own === "string") parts.push(own);
  else for (const each of OWN) if (typeof own?.[each] === "string") parts.push(`${each} ${own[each]}`);
  return parts.length > 0 ? `${name ?? key.split(".").slice(1).join(", ")}: ${parts.join(", ")}` : "";
}
