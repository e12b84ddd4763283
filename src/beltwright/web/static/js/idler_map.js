// The map of an idler's places, laid over the drawing.

import { address, build, look, onShown, save, seenFrom } from "./build.js";
import { readLength, writeLength } from "./lengths.js";
import { complain } from "./notice.js";
import { ask } from "./server.js";
import { valueAt } from "./values.js";
import { drawing } from "./view.js";

let chosen = null;
let best = null;
let layer = null;

export function startMap() {
  document.addEventListener("click", (event) => {
    const button = event.target.closest("[data-idler-map]");
    if (button) choose(button.dataset.idlerMap === chosen ? null : button.dataset.idlerMap, true);
    if (event.target.id === "map-best") putThere();
  });
  document.addEventListener("drawn", lay);
  onShown(() => chosen && choose(chosen));
}

// Lays another map in place of that of an idler, or none.
export async function layMap(map) {
  await choose(null);
  await lie(map);
}

async function choose(idler, turn = false) {
  chosen = idler;
  layer = null;
  offer(null);
  drawing()?.querySelector(".idler-map")?.remove();
  for (const button of document.querySelectorAll("[data-idler-map]")) {
    button.setAttribute("aria-pressed", String(button.dataset.idlerMap === idler));
  }
  if (idler === null) return says("");
  says("Working it out …");
  const { version } = build;
  try {
    const map = await ask(address(`/idler-places?idler=${encodeURIComponent(idler)}`));
    if (chosen !== idler || version !== build.version) return;
    says(map.says);
    offer(map.best && { at: map.best, moves: map.moves });
    await lie(map, turn);
  } catch (refused) {
    says(refused.sentence ?? String(refused));
  }
}

async function lie(map, turn = true) {
  layer = map;
  if (map && turn && map.seen_from !== seenFrom()) await look(map.view);
  lay();
}

// Under everything else, in the same millimetres of the machine.
function lay() {
  const svg = drawing();
  if (!svg || !layer || layer.seen_from !== seenFrom() || svg.querySelector(".idler-map")) return;
  const drawn = new DOMParser().parseFromString(layer.scene, "image/svg+xml");
  const map = drawn.getElementById("idler-map");
  if (!map) return;
  const group = document.createElementNS(svg.namespaceURI, "g");
  group.setAttribute("class", "idler-map");
  group.setAttribute("transform", drawn.documentElement.querySelector(":scope > g").getAttribute("transform"));
  group.append(map);
  svg.querySelector(":scope > g").before(group);
}

function offer(place) {
  best = place;
  document.getElementById("map-best-line").hidden = place === null;
}

async function putThere() {
  const where = best.moves === "pivot" ? "arm.pivot" : "at";
  const edits = best.at.map((mm, axis) => {
    const key = `idler.${chosen}.${where}.${axis}`;
    return { key, text: writeLength(mm, readLength(valueAt(build.values, key))) };
  });
  try {
    await save(edits, `${chosen} put where it forgives most`);
  } catch (refused) {
    complain(refused);
  }
}

function says(words) {
  document.getElementById("map-words").textContent = words;
}
