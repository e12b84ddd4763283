// A photo under the drawing: its sheet of paper is tapped, then it is laid where that says.

import { address, build, onShown, seenFrom } from "./build.js";
import { say } from "./notice.js";
import { sendForm } from "./server.js";
import { showPhoto, tapped } from "./taps.js";
import { drawing } from "./view.js";

let placed = build.photo;
let shown = 0;

export function startPhoto() {
  document.addEventListener("submit", sendPhoto);
  document.addEventListener("change", (event) => {
    if (event.target.id === "photo-file") showPhoto(event.target.files[0]);
  });
  document.addEventListener("drawn", lay);
  onShown(() => {
    placed = build.photo;
    lay();
  });
  lay();
}

function lay() {
  const seen = placed && seenFrom() === "above"; // it was taken from there
  document.getElementById("photo-choice").hidden = !seen;
  const svg = drawing();
  if (!svg || !seen || svg.querySelector("#photo-under")) return;
  const layer = document.createElementNS(svg.namespaceURI, "g");
  layer.id = "photo-under";
  const image = document.createElementNS(svg.namespaceURI, "image");
  const perPixel = 1 / placed.scale;
  const sizes = {
    x: -placed.origin_x * perPixel,
    y: -placed.origin_y * perPixel,
    width: placed.width * perPixel,
    height: placed.height * perPixel,
    href: `/api/${address("/photo")}?${shown}`,
    opacity: 0.55,
  };
  for (const [name, value] of Object.entries(sizes)) image.setAttribute(name, value);
  layer.append(image);
  svg.querySelector("desc").after(layer);
}

async function sendPhoto(event) {
  if (event.target.id !== "photo") return;
  event.preventDefault();
  const form = event.target;
  const error = form.querySelector(".error");
  error.hidden = true;
  const sent = new FormData(form);
  sent.set("tapped", JSON.stringify(tapped()));
  try {
    placed = await sendForm(address("/photo"), sent);
    shown += 1;
    drawing()?.querySelector("#photo-under")?.remove();
    lay();
    say(`The photo lies under the drawing. Half a metre from the sheet it may be off by ${Math.ceil(placed.error)} mm.`);
  } catch (refused) {
    error.textContent = refused.sentence ?? String(refused);
    error.hidden = false;
  }
}
