// What part of the drawing is seen: closer, further, moved about, the whole.

const board = () => document.getElementById("board");
export const drawing = () => document.querySelector("#scene > svg");

const CLOSEST = 24;
let own = null;
const standing = new Map(); // groups of the scene as they were before others came in their place

const tell = (what) => drawing().dispatchEvent(new CustomEvent(what, { bubbles: true }));

// Puts another scene in, seen as the last one was; tells "drawn", and "seen" where its scale may be
// another.
export function showScene(text) {
  const scene = document.getElementById("scene");
  if (text) scene.innerHTML = text;
  standing.clear();
  if (!drawing()) return;
  ready();
  if (!own) tell("seen");
}

// Puts other groups into the scene, by id; those that were put in before and are not named now are
// again as they stood.
export function showGroups(groups) {
  for (const id of new Set([...standing.keys(), ...Object.keys(groups)])) {
    const group = drawing().querySelector(`#${id}`);
    if (!standing.has(id)) standing.set(id, withoutMoves(group));
    group.outerHTML = groups[id] ?? standing.get(id);
  }
  tell("drawn");
}

function withoutMoves(group) {
  const copy = group.cloneNode(true);
  for (const thing of copy.querySelectorAll("[data-drag]")) thing.removeAttribute("transform");
  return copy.outerHTML;
}

function ready() {
  const svg = drawing();
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  svg.dataset.whole = svg.getAttribute("viewBox");
  frame();
  tell("drawn");
}

function frame() {
  if (own) drawing().setAttribute("viewBox", [own.x, own.y, own.width, own.height].join(" "));
}

function apply() {
  frame();
  tell("seen");
}

// Keeps what is seen now, so that a drawing that grows does not move under the finger.
export function hold() {
  own ??= whole();
}

export function seeWhole() {
  own = null;
  if (!drawing()) return;
  drawing().setAttribute("viewBox", drawing().dataset.whole);
  tell("seen");
}

export function see(factor, at = middle()) {
  if (!drawing()) return;
  const seen = own ?? whole();
  const smallest = whole().width / CLOSEST;
  const width = Math.max(smallest, Math.min(whole().width * 3, seen.width / factor));
  const share = width / seen.width;
  own = {
    x: at.x - (at.x - seen.x) * share,
    y: at.y - (at.y - seen.y) * share,
    width,
    height: seen.height * share,
  };
  apply();
}

export function move(dx, dy) {
  if (!drawing()) return;
  const seen = own ?? whole();
  own = { ...seen, x: seen.x + dx, y: seen.y + dy };
  apply();
}

// Moves what has the focus into sight.
export function bring(thing) {
  const [seen, box] = [board(), thing].map((each) => each.getBoundingClientRect());
  const beyond = (low, high, from, to) => (low < from ? low - from : high > to ? high - to : 0);
  const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  const reach = 24; // so that it does not stand at the very edge
  const dx = beyond(middle.x - reach, middle.x + reach, seen.left, seen.right);
  const dy = beyond(middle.y - reach, middle.y + reach, seen.top, seen.bottom);
  if (dx || dy) move(dx * perPixel(), dy * perPixel());
}

// A place on the screen, in millimetres of the machine: x to the right, y downwards.
export function placeAt(clientX, clientY) {
  return new DOMPoint(clientX, clientY).matrixTransform(drawing().getScreenCTM().inverse());
}

// Millimetres of the machine that one pixel of the screen shows.
export const perPixel = () => 1 / drawing().getScreenCTM().a;

function whole() {
  const [x, y, width, height] = drawing().dataset.whole.split(" ").map(Number);
  return { x, y, width, height };
}

function middle() {
  const box = board().getBoundingClientRect();
  return placeAt(box.x + box.width / 2, box.y + box.height / 2);
}

// The server draws for a phone when its cookie says so; the first page comes before the cookie.
function sayScreen() {
  const kind = innerWidth <= 720 ? "phone" : "desk";
  const said = document.cookie.includes(`beltwright-screen=${kind}`);
  document.cookie = `beltwright-screen=${kind}; path=/; samesite=strict; max-age=31536000`;
  return said || kind === "desk";
}

export function startView(redraw) {
  const area = board();
  showScene("");
  if (!sayScreen()) redraw();
  area.addEventListener("wheel", (event) => {
    if (!drawing()) return;
    event.preventDefault();
    see(Math.exp(-event.deltaY * 0.0016), placeAt(event.clientX, event.clientY));
  }, { passive: false });
  document.querySelector(".tools").addEventListener("click", (event) => {
    const act = event.target.closest("[data-view]")?.dataset.view;
    if (act === "closer") see(1.4);
    if (act === "further") see(1 / 1.4);
    if (act === "whole") seeWhole();
  });
  area.addEventListener("keydown", byKey);
  area.addEventListener("focusin", (event) => {
    const thing = event.target.closest("#scene [tabindex]");
    if (thing?.matches(":focus-visible")) bring(thing);
  });
}

function byKey(event) {
  if (event.target.closest("[data-drag]") && event.key.startsWith("Arrow")) return;
  if (event.ctrlKey || event.metaKey || event.altKey || !drawing()) return;
  const far = 60 * perPixel();
  const acts = {
    ArrowLeft: () => move(-far, 0),
    ArrowRight: () => move(far, 0),
    ArrowUp: () => move(0, -far),
    ArrowDown: () => move(0, far),
    "+": () => see(1.25),
    "=": () => see(1.25),
    "-": () => see(0.8),
    0: () => seeWhole(),
  };
  const act = acts[event.key];
  if (!act) return;
  event.preventDefault();
  act();
}
