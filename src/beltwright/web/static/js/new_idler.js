// One more idler: looked for along a belt, shown as a list and on the drawing, and put in.

import { address } from "./build.js";
import { layMap } from "./idler_map.js";
import { complain, say } from "./notice.js";
import { Searching } from "./searching.js";
import { ask } from "./server.js";

export function startNewIdler() {
  const search = new Searching("more", "/new-idler", {
    told,
    share: (state) => state.share ?? 0,
    show: (found) => show(search, found),
    leave: () => layMap(null),
  });
  document.addEventListener("click", (event) => {
    const { dataset } = event.target.closest("[data-one-more-for]") ?? {};
    if (dataset) search.start({ belt: dataset.oneMoreFor, outside: document.getElementById("more-outside").value });
  });
}

function told(state) {
  if (state.share === undefined) return "Reviewing the build as it is …";
  const side = state.side === "back" ? "on the back" : "inside";
  const places = state.places === 1 ? "1 place" : `${state.places} places`;
  return `After the ${state.after}, ${side}; ${places} so far.`;
}

function show(search, found) {
  const list = element("ol", "", "found");
  for (const place of found.places) list.append(row(search, place));
  const parts = found.says.map((says) => element("p", says));
  if (found.places.length > 0) parts.push(list, element("p", `Caution. ${found.caution}`, "caution"));
  if (found.why_nowhere.length > 0) parts.push(nowhere(found));
  search.part("found").replaceChildren(...parts);
}

function row(search, place) {
  const item = element("li", "");
  item.dataset.place = place.number;
  item.append(element("b", place.title));
  for (const line of place.says) item.append(element("div", line));
  const buttons = element("p", "", "buttons");
  const named = `place ${place.number}`;
  const seen = press("Show on the drawing", () => lay(search, place.number, seen));
  seen.setAttribute("aria-pressed", "false");
  seen.setAttribute("aria-label", `Show on the drawing: ${named}`);
  const put = press("Put it in", () => putIn(search, place.number));
  put.setAttribute("aria-label", `Put it in: ${named}`);
  buttons.append(seen, " ", put);
  item.append(buttons);
  return item;
}

async function lay(search, number, button) {
  const shown = button.getAttribute("aria-pressed") === "true";
  for (const each of search.part("found").querySelectorAll("[aria-pressed]")) each.setAttribute("aria-pressed", "false");
  if (shown) return layMap(null);
  try {
    const map = await ask(address(search.at(`/places/${number}`)));
    button.setAttribute("aria-pressed", "true");
    await layMap(map);
  } catch (refused) {
    complain(refused);
  }
}

async function putIn(search, number) {
  if (!(await search.take(number))) return;
  search.end("The idler stands in the build file. Undo brings back what was.");
  say("Idler put in.");
}

function nowhere(found) {
  const details = element("details", "");
  details.open = found.places.length === 0;
  details.append(element("summary", "Where nothing helps"));
  const list = element("ul", "", "plain");
  for (const line of found.why_nowhere) list.append(element("li", line));
  details.append(list);
  return details;
}

function press(words, work) {
  const button = element("button", words);
  button.type = "button";
  button.addEventListener("click", work);
  return button;
}

function element(tag, text, kind = "") {
  const made = document.createElement(tag);
  if (text) made.textContent = text;
  if (kind) made.className = kind;
  return made;
}
