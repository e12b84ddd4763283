// The build as this page has seen it, and the changes that are made to it.

import { ask, send } from "./server.js";
import { saysSo } from "./working.js";

const holder = () => document.getElementById("build-data");
const listeners = [];

export let build = JSON.parse(holder().textContent);

export const address = (rest = "") => `builds/${encodeURIComponent(build.name)}${rest}`;

// The view of the belts that this page looks at; what it asks for comes in the first one, where it
// names no other.
let view = build.view;

const named = (path) => `${path}?view=${encodeURIComponent(view)}`;
const looking = (path) => (view === (build.views[0]?.name ?? "") ? path : named(path));

// Calls back with what the server said (or null) each time the page shows another state.
export function onShown(listener) {
  listeners.push(listener);
}

let queue = Promise.resolve();

// Changes go one after another, so that each is made to what the one before left.
export function save(edits, note = "") {
  return queued(() => send(looking(address("/edit")), { version: build.version, edits, note }));
}

export function change(path, more = {}) {
  return queued(() => send(looking(address(path)), { version: build.version, ...more }));
}

function queued(work) {
  const done = queue.then(async () => {
    const shown = await saysSo(work());
    await show(shown);
    return shown;
  });
  queue = done.catch(() => {});
  return done;
}

// How it would be; while the hand is moving, the drawing alone.
export function tryOut(edits, moving) {
  return send(looking(address("/try")), { version: build.version, edits, moving });
}

// Shows what stands in the file now; true where that was news to the page.
export function catchUp(version) {
  const done = queue.then(async () => {
    if (version === build.version) return false;
    await show(await saysSo(ask(looking(address()))));
    return true;
  });
  queue = done.catch(() => {});
  return done;
}

// The same build again, drawn for this screen.
export function redraw() {
  const done = queue.then(async () => show(await saysSo(ask(looking(address())))));
  queue = done.catch(() => {});
  return done;
}

// Looks at another view of the belts; the next page begins with it.
export function look(name) {
  view = name;
  document.cookie = `beltwright-view=${encodeURIComponent(name)}; path=/; samesite=strict; max-age=31536000`;
  return redraw();
}

// From where the belts are seen: "above" or "the right".
export const seenFrom = () => build.views.find((each) => each.name === build.view)?.seen_from ?? "above";

async function show(shown) {
  const focused = document.activeElement?.id;
  await globalThis.htmx.ajax("GET", named(location.pathname), {
    target: "#main",
    select: "#main",
    swap: "outerMorph",
  });
  build = JSON.parse(holder().textContent);
  view = build.view;
  if (focused && document.activeElement?.id !== focused) {
    document.getElementById(focused)?.focus({ preventScroll: true });
  }
  for (const listener of listeners) listener(shown);
}
