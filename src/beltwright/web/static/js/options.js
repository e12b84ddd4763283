// What a search found: a table to pick from, the trade-off chart, and why the rest is out.

import { tradeOff } from "./trade_off.js";

const MOST = 12;

export function showOptions(found) {
  const holder = document.getElementById("search-found");
  holder.replaceChildren(counted(found), ...standing(found));
  if (found.options.length > 0) {
    holder.append(table(found), caution(found.caution), buttons(holder));
    tradeOff(holder, found, (number) => pick(holder, number));
    pick(holder, found.options[0].number);
  } else {
    holder.append(nearest(found.relaxation));
  }
  if (found.rejections.length > 0) holder.append(rejected(found.rejections));
}

function counted(found) {
  const fit = found.options.length;
  const many = fit === 0 ? "none fits" : fit === 1 ? "one stands out" : `${fit} stand out`;
  const whole = found.finished ? "" : " before it was stopped";
  return element("p", `${found.disposed.toLocaleString("en")} candidates looked at${whole}; ${many}.`);
}

function standing(found) {
  return found.standing.map((stop) =>
    element("p", `Stop: ${stop.title}. No choice changes it; see to it first.`, "caution"),
  );
}

function table(found) {
  const scrolled = element("div", "", "scrolled");
  scrolled.tabIndex = 0;
  scrolled.role = "region";
  scrolled.ariaLabel = "Options";
  const made = element("table", "", "options");
  const head = made.createTHead().insertRow();
  for (const title of ["Option", ...found.merits.map((merit) => merit.title)]) {
    const cell = element("th", title);
    cell.scope = "col";
    head.append(cell);
  }
  const body = made.createTBody();
  for (const option of found.options.slice(0, MOST)) {
    body.append(optionRow(option, found.merits), partsRow(option, found.merits.length + 1));
  }
  scrolled.append(made);
  return scrolled;
}

function optionRow(option, merits) {
  const row = document.createElement("tr");
  row.dataset.option = option.number;
  const label = element("label", "");
  const radio = document.createElement("input");
  radio.type = "radio";
  radio.name = "option";
  radio.value = option.number;
  radio.addEventListener("change", () => pick(document.getElementById("search-found"), option.number));
  label.append(radio, ` ${option.number}`);
  row.insertCell().append(label);
  for (const merit of merits) row.insertCell().textContent = option.shown[merit.name];
  return row;
}

// What the option takes, in a row of its own under its merits; what stays as it is goes last.
function partsRow(option, columns) {
  const row = document.createElement("tr");
  row.dataset.partsOf = option.number;
  const cell = row.insertCell();
  cell.colSpan = columns;
  const parts = Object.entries(option.taken).sort(([, a], [, b]) => stays(a) - stays(b));
  for (const [name, value] of parts) cell.append(element("div", `${name}: ${value}`));
  return row;
}

const stays = (value) => Number(value === "as it stands");

function buttons() {
  const line = element("p", "", "buttons");
  const button = element("button", "Take the picked one", "main");
  button.type = "button";
  button.addEventListener("click", () => {
    const detail = Number(document.querySelector('[name="option"]:checked').value);
    button.dispatchEvent(new CustomEvent("apply", { bubbles: true, detail }));
  });
  line.append(button);
  return line;
}

function pick(holder, number) {
  for (const row of holder.querySelectorAll("tr[data-option]")) {
    const picked = Number(row.dataset.option) === number;
    row.classList.toggle("picked", picked);
    if (picked) row.querySelector("input").checked = true;
    row.nextElementSibling.classList.toggle("picked", picked);
  }
  holder.dispatchEvent(new CustomEvent("picked", { detail: number }));
}

function nearest(relaxation) {
  const box = element("div", "");
  if (!relaxation) {
    box.append(element("p", "Nothing fits, and nothing comes near. Begin with the first reason below: ease its limit, or leave open more of what it hangs on."));
    return box;
  }
  const heading = relaxation.stops
    ? "Nothing fits, whatever the goals. The nearest is still stopped:"
    : "Nothing fits. The least that would let something fit:";
  box.append(element("p", heading), ...relaxation.says.map((says) => element("p", says)));
  const taken = Object.entries(relaxation.taken).map(([name, value]) => `${name}: ${value}`);
  box.append(element("p", `with ${taken.join("; ")}`, "hint"));
  return box;
}

function rejected(rejections) {
  const details = element("details", "");
  details.append(element("summary", "Why the others are out"));
  const list = element("ul", "", "plain");
  for (const each of rejections.slice(0, 10)) {
    const share = `${(each.share * 100).toFixed(1)} %`;
    const line = element("li", `${share}: ${each.why}`);
    for (const sentence of each.sentences.slice(0, 4)) line.append(element("p", sentence, "hint"));
    list.append(line);
  }
  details.append(list);
  return details;
}

const caution = (words) => element("p", `Caution. ${words}`, "caution");

function element(tag, text, kind = "") {
  const made = document.createElement(tag);
  if (text) made.textContent = text;
  if (kind) made.className = kind;
  return made;
}
