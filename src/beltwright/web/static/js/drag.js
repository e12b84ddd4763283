// Hands on the drawing: one finger or the mouse moves a thing or the view, two fingers the size,
// arrow keys move the thing that has the focus.

import { edit } from "./editor.js";
import { Moving } from "./moving.js";
import { say } from "./notice.js";
import { drawing, move, perPixel, placeAt, see } from "./view.js";

const SLACK = 5; // pixels that a hand trembles
const REACH = { mouse: 10, pen: 14, touch: 24 }; // pixels by which a thing may be missed
const PAUSE = 900; // ms in which a move by arrow keys is seen before it is kept

const fingers = new Map();
let held = null;
let keyed = null;

export const step = () => Number(document.getElementById("step").value) || 1;

export function startDrag() {
  const board = document.getElementById("board");
  board.addEventListener("pointerdown", down);
  board.addEventListener("pointermove", moved);
  board.addEventListener("pointerrawupdate", early);
  board.addEventListener("pointerup", up);
  board.addEventListener("pointercancel", up);
  board.addEventListener("keydown", byKey);
  board.addEventListener("focusout", leave);
  document.addEventListener("keydown", putBack, true);
}

function down(event) {
  if (!drawing() || (event.pointerType === "mouse" && event.button !== 0)) return;
  fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  if (fingers.size > 1) {
    held?.moving?.giveUp();
    held = null;
    return;
  }
  const thing = reached(event);
  held = {
    thing,
    from: { x: event.clientX, y: event.clientY },
    place: placeAt(event.clientX, event.clientY),
    moving: null,
    pressed: event.target,
  };
  event.currentTarget.setPointerCapture(event.pointerId);
}

// What was meant: what lies under the pointer, else the nearest thing within reach. A part reaches
// to its own corners, so that it does not stand in their way.
function reached(event) {
  const under = event.target.closest?.("[data-drag]");
  if (under || event.target.closest?.("[data-finding], #names [data-key]")) return under;
  const things = [...document.querySelectorAll("#scene [data-drag]")].map((thing) => {
    const box = thing.getBoundingClientRect();
    const away = Math.hypot(box.x + box.width / 2 - event.clientX, box.y + box.height / 2 - event.clientY);
    return { thing, away };
  });
  const nearest = things.sort((a, b) => a.away - b.away)[0];
  return nearest && nearest.away <= REACH[event.pointerType] ? nearest.thing : null;
}

function moved(event) {
  const finger = fingers.get(event.pointerId);
  if (!finger) return;
  if (fingers.size === 2) pinch(event);
  else if (held) drag(event, finger);
  fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
}

// A browser tells of a move with its next frame, and some tell of it at once too: the sooner it is
// asked how things would be, if nothing else is being asked.
function early(event) {
  if (held?.moving && !held.moving.asking) moved(event);
}

function drag(event, finger) {
  if (!held.begun) {
    const away = Math.hypot(event.clientX - held.from.x, event.clientY - held.from.y);
    if (away < SLACK) return;
    held.begun = true;
    if (held.thing) begin();
  }
  if (held.moving) {
    const here = placeAt(event.clientX, event.clientY);
    const [x, y] = held.moving.start;
    held.moving.to(x.mm + here.x - held.place.x, y.mm - (here.y - held.place.y));
  } else if (!held.thing) {
    move((finger.x - event.clientX) * perPixel(), (finger.y - event.clientY) * perPixel());
  }
}

function begin() {
  const moving = new Moving(held.thing, step());
  if (moving.possible) held.moving = moving;
  else say("Where it stands is not written as one plain length. Press Enter on it and type it.");
  document.getElementById("scene").classList.add("dragging");
}

function pinch(event) {
  const [a, b] = [...fingers.values()];
  const before = Math.hypot(a.x - b.x, a.y - b.y);
  const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
  const [c, d] = [...fingers.values()];
  const after = Math.hypot(c.x - d.x, c.y - d.y);
  if (before > 0 && after > 0) see(after / before, placeAt(middle.x, middle.y));
  const now = { x: (c.x + d.x) / 2, y: (c.y + d.y) / 2 };
  move((middle.x - now.x) * perPixel(), (middle.y - now.y) * perPixel());
}

// Escape puts back what is held, wherever the focus is.
function putBack(event) {
  if (event.key !== "Escape" || !held?.moving) return;
  event.stopPropagation();
  held.moving.giveUp();
  held = null;
  document.getElementById("scene").classList.remove("dragging");
}

function up(event) {
  fingers.delete(event.pointerId);
  document.getElementById("scene").classList.remove("dragging");
  const { moving, begun, thing, pressed } = held ?? {};
  held = null;
  if (event.type === "pointercancel") moving?.giveUp();
  else if (moving) moving.moved ? moving.letGo() : moving.giveUp();
  else if (pressed && !begun) press(thing, pressed);
}

// A press without a drag: a balloon opens its finding, a thing or a dimension its numbers.
function press(thing, pressed) {
  const finding = pressed.closest?.("[data-finding]");
  if (finding) {
    finding.dispatchEvent(new CustomEvent("finding", { bubbles: true, detail: finding.dataset.finding }));
    return;
  }
  const meant = thing ?? pressed.closest?.("[data-key]");
  if (meant) edit(meant);
}

function byKey(event) {
  const thing = event.target.closest("[data-drag], [data-finding], [data-key]");
  if (event.key === "Escape" && !keyed) leaveBy(thing);
  if (!thing) return;
  if (event.key === "Enter" || event.key === " ") {
    event.preventDefault();
    keyed = null;
    press(thing.dataset.drag ? thing : null, thing);
  } else if (event.key === "Escape" && keyed) {
    stopKeys();
    keyed.giveUp();
    keyed = null;
  } else if (thing.dataset.drag) {
    nudge(event, thing);
  }
}

// One step out: from a thing to the drawing, from the drawing to the plan beside it.
function leaveBy(thing) {
  document.getElementById(thing ? "board" : "plan").focus({ preventScroll: Boolean(thing) });
}

let waiting;

const stopKeys = () => clearTimeout(waiting);

function nudge(event, thing) {
  const ways = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
  const way = ways[event.key];
  if (!way || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  if (keyed?.drag !== thing.dataset.drag) {
    keep();
    keyed = new Moving(thing, step());
    if (!keyed.possible) keyed = null;
  }
  const far = step() * (event.shiftKey ? 10 : 1);
  keyed?.by(way[0] * far, way[1] * far);
  keepOnceSeen(keyed);
}

async function keepOnceSeen(moving) {
  stopKeys();
  await moving?.asking;
  stopKeys();
  waiting = setTimeout(keep, PAUSE);
}

function keep() {
  stopKeys();
  const moving = keyed;
  keyed = null;
  if (moving?.moved) moving.letGo();
}

function leave() {
  // a redrawn scene takes the focus away for a moment and gives it back
  setTimeout(() => {
    if (keyed && document.activeElement?.dataset?.drag !== keyed.drag) keep();
  }, 50);
}
