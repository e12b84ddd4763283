// Corners that are tapped on a photo: set by a tap, moved by dragging or with the arrow keys.

const WHAT = ["the front left corner of the sheet", "its front right corner", "its rear right corner", "its rear left corner", "the place that you know"];
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const LOUPE = 44;
const CLOSE = 12;
const THUMB = 22;
const FINE = 0.25;

let places = [];
let held = null;

const area = () => document.querySelector("#photo-taps .taps");
const image = () => area().querySelector("img");
const marks = () => [...area().querySelectorAll(".tap")];

// What has been tapped, in pixels of the photo.
export const tapped = () => places;

export function showPhoto(file) {
  document.getElementById("photo-taps").hidden = !file;
  if (!file) return;
  const seen = image();
  URL.revokeObjectURL(seen.src);
  seen.src = URL.createObjectURL(file);
  places = [];
  for (const mark of marks()) mark.hidden = true;
  seen.onload = () => askNext();
  if (area().dataset.ready) return;
  area().dataset.ready = "yes";
  area().addEventListener("pointerdown", taken);
  area().addEventListener("pointermove", dragged);
  area().addEventListener("pointerup", letGo);
  area().addEventListener("pointercancel", letGo);
  area().addEventListener("keydown", nudged);
}

// The next mark is set where a finger comes down; a mark close by, or the nearest once all are
// set, is moved. What moves under a resting finger moves a quarter as far, so that it can be put
// right to a pixel of a photo that is far larger than the screen.
function taken(event) {
  const away = places.map((place) => (place ? distance(place, event) : Infinity));
  const nearest = away.indexOf(Math.min(...away));
  const next = places.length < WHAT.length ? places.length : nearest;
  const moved = away[nearest] < CLOSE || places.length === WHAT.length;
  const index = moved ? nearest : next;
  event.preventDefault();
  area().setPointerCapture(event.pointerId);
  if (!moved || away[nearest] > THUMB) put(index, under(event));
  held = { index, from: under(event), place: places[index] };
  look(places[index]);
  marks()[index].focus({ preventScroll: true });
}

function dragged(event) {
  if (!held) return;
  const to = under(event);
  put(held.index, held.place.map((at, axis) => at + FINE * (to[axis] - held.from[axis])));
}

function distance(place, event) {
  const [x, y] = under(event);
  const seen = image();
  return (Math.hypot(x - place[0], y - place[1]) * seen.clientWidth) / seen.naturalWidth;
}

function letGo() {
  held = null;
  area().querySelector("canvas").hidden = true;
  askNext();
}

function nudged(event) {
  const way = ARROWS[event.key];
  const index = marks().indexOf(event.target);
  if (!way || index < 0) return;
  event.preventDefault();
  const far = event.shiftKey ? 10 : 1;
  put(index, places[index].map((at, axis) => at + far * way[axis]));
}

// Where a finger is, in pixels of the photo.
function under(event) {
  const seen = image();
  const box = seen.getBoundingClientRect();
  const x = ((event.clientX - box.left) / box.width) * seen.naturalWidth;
  const y = ((event.clientY - box.top) / box.height) * seen.naturalHeight;
  return [x, y];
}

function put(index, place) {
  const seen = image();
  const size = [seen.naturalWidth, seen.naturalHeight];
  places[index] = place.map((at, axis) => Math.min(Math.max(at, 0), size[axis]));
  const mark = marks()[index];
  mark.hidden = false;
  mark.style.left = `${(100 * places[index][0]) / size[0]}%`;
  mark.style.top = `${(100 * places[index][1]) / size[1]}%`;
  look(places[index]);
}

// What lies under the finger, three times as large, in the corner that the hand leaves free.
function look([x, y]) {
  const loupe = area().querySelector("canvas");
  loupe.hidden = false;
  loupe.classList.toggle("right", x < image().naturalWidth / 2);
  const paint = loupe.getContext("2d");
  const side = loupe.width;
  paint.clearRect(0, 0, side, side);
  paint.drawImage(image(), x - LOUPE / 2, y - LOUPE / 2, LOUPE, LOUPE, 0, 0, side, side);
  paint.strokeStyle = "#fff";
  paint.strokeRect(side / 2 - 3, side / 2 - 3, 6, 6);
  paint.strokeStyle = "#000";
  paint.strokeRect(side / 2 - 4, side / 2 - 4, 8, 8);
}

function askNext() {
  const left = WHAT[tapped().length];
  document.getElementById("photo-next").textContent = left
    ? `Tap ${left}. Drag a mark, or use the arrow keys, to put it right.`
    : "All is tapped. Drag a mark, or use the arrow keys, to put it right.";
}
