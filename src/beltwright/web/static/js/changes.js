// What a change did to the findings: at once while something moves; as a list once it is kept, by
// whomever: this page, another, an editor, undo and redo.

import { rowOf } from "./findings.js";

const MOST = 4;
const MOST_KEPT = 6;

let kept = [];

const mark = (verdict) => {
  const made = document.querySelector(`svg.mark.${verdict.replace(" ", "-")}`)?.cloneNode(true);
  return made ?? document.createTextNode("");
};

// Not to know is neither better nor worse.
function way(row) {
  if ([row.before, row.after].some((side) => side?.verdict === "not known")) return "";
  return row.worse_by > 0 ? "worse" : row.worse_by < 0 ? "better" : "";
}

const says = ({ before, after }) =>
  !before || !after || before.verdict !== after.verdict || before.shown !== after.shown;

// Over the drawing, where it is while it moves.
export function showPlace(title) {
  const live = document.getElementById("live");
  const heading = live.querySelector("b") ?? live.appendChild(document.createElement("b"));
  heading.textContent = title;
  live.hidden = false;
}

// And what that changes, once the hand rests.
export function showLive(title, every) {
  const rows = every.filter(says);
  const live = document.getElementById("live");
  const heading = document.createElement("b");
  heading.textContent = title;
  live.replaceChildren(heading, ...rows.slice(0, MOST).map((row) => line(row, "p")));
  if (rows.length > MOST) live.append(`and ${rows.length - MOST} more`);
  live.hidden = false;
  markRows(rows);
}

export function clearLive() {
  document.getElementById("live").hidden = true;
  document.getElementById("live").replaceChildren();
  markRows(kept);
}

// In the list, until the next change of the file.
export function showChanges(every) {
  const rows = every.filter(says);
  kept = rows;
  markRows(rows);
  const list = document.getElementById("changed");
  if (!list) return;
  list.replaceChildren(...rows.slice(0, MOST_KEPT).map((row) => line(row, "li")));
  const rest = document.getElementById("changed-more");
  rest.replaceChildren(...rows.slice(MOST_KEPT).map((row) => line(row, "li")));
  const more = rest.closest("details");
  more.hidden = rows.length <= MOST_KEPT;
  more.querySelector("summary").textContent = `and ${rows.length - MOST_KEPT} more`;
  document.getElementById("changes").hidden = rows.length === 0;
}

function line(row, tag) {
  const made = document.createElement(tag);
  const side = row.after ?? row.before;
  const words = document.createElement("span");
  words.textContent = `${row.title}: ${told(row)}`;
  const turn = document.createElement("b");
  turn.textContent = way(row);
  made.append(mark(side.verdict), words, turn);
  made.className = "change";
  return made;
}

function told(row) {
  if (!row.before) return `new, ${row.after.verdict}, ${row.after.shown}`;
  if (!row.after) return "not asked any more";
  const turned = row.before.verdict === row.after.verdict ? "" : ` (${row.before.verdict} → ${row.after.verdict})`;
  const by = row.difference ? `, ${row.difference}` : "";
  return `${row.before.shown} → ${row.after.shown}${by}${turned}`;
}

function markRows(rows) {
  for (const row of document.querySelectorAll(".finding.changing")) {
    row.classList.remove("changing");
    row.querySelector(".turned").hidden = true;
  }
  for (const row of rows) {
    const shown = rowOf(row.id);
    if (!shown || !row.after) continue;
    shown.classList.add("changing");
    const turned = shown.querySelector(".turned");
    turned.replaceChildren(mark(row.after.verdict), ` ${told(row)} ${way(row)}`);
    turned.hidden = false;
  }
}
