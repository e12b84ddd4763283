// The charts, live: worked out when they come into sight, again when the build changes.

import { address, onShown } from "./build.js";
import { chartFigure } from "./chart_figure.js";
import { ask } from "./server.js";

let drawn = [];
let seen = false;

export function startCharts() {
  const holder = document.getElementById("charts");
  if (!holder) return;
  new IntersectionObserver((entries, observer) => {
    if (!entries.some((entry) => entry.isIntersecting)) return;
    observer.disconnect();
    seen = true;
    draw();
  }, { rootMargin: "300px" }).observe(holder);
  onShown(() => seen && draw());
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => seen && draw());
  addEventListener("resize", fit);
}

async function draw() {
  const holder = document.getElementById("charts");
  try {
    const { charts, missing } = await ask(address("/charts"));
    for (const plot of drawn) plot.destroy();
    holder.replaceChildren();
    drawn = charts.map((chart) => chartFigure(holder, chart));
    for (const [name, what] of Object.entries(missing)) holder.append(words(`${name}: ${what}`));
  } catch (refused) {
    holder.replaceChildren(words(refused.sentence ?? String(refused)));
  }
}

function words(text) {
  const line = document.createElement("p");
  line.className = "hint";
  line.textContent = text;
  return line;
}

function fit() {
  for (const plot of drawn) plot.setSize({ width: plot.root.parentElement.clientWidth, height: plot.height });
}
