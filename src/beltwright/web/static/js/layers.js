// What the drawing shows, the step that things snap to, and the scale and units in the title block.

import { build } from "./build.js";
import { readLength, stepsFor } from "./lengths.js";
import { drawing, perPixel } from "./view.js";

const PIXEL = 25.4 / 96; // mm of paper that a pixel stands for (CSS Values, absolute lengths)

const boxes = () => document.querySelectorAll("#layers [data-layer]");

export function startLayers() {
  const unit = usualUnit();
  const steps = stepsFor(unit);
  document.getElementById("step").replaceChildren(
    ...steps.map(({ mm, name }, index) => new Option(name, mm, index === 1, index === 1)),
  );
  document.getElementById("layers").addEventListener("change", showLayers);
  document.addEventListener("drawn", showLayers);
  document.addEventListener("seen", showScale);
  addEventListener("resize", showScale);
  document.getElementById("layers").addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !event.currentTarget.open) return;
    event.currentTarget.open = false;
    event.currentTarget.querySelector("summary").focus();
  });
  document.addEventListener("click", (event) => {
    const layers = document.getElementById("layers");
    if (!event.target.closest("#layers")) layers.open = false;
  });
}

function showLayers() {
  for (const box of boxes()) {
    const layer = drawing()?.querySelector(`#${box.dataset.layer}`);
    layer?.classList.toggle("off", !box.checked);
  }
}

export function showScale() {
  document.getElementById("units").textContent = usualUnit();
  if (!drawing()) return;
  const scale = perPixel() / PIXEL;
  document.getElementById("scale").textContent =
    scale >= 1 ? `about 1 : ${scale.toPrecision(2)}` : `about ${(1 / scale).toPrecision(2)} : 1`;
}

// The unit in which most places on the drawing are written.
function usualUnit() {
  const counts = new Map();
  for (const shaft of build.values.shaft ?? []) {
    for (const text of shaft.at ?? []) {
      const unit = readLength(text)?.unit;
      if (unit) counts.set(unit, (counts.get(unit) ?? 0) + 1);
    }
  }
  const chosen = build.values.show?.length?.split(" ")[0];
  return chosen ?? [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? "mm";
}
