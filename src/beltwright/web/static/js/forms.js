// Fields that are kept as soon as they are left, with what is wrong beside them.

import { build, save } from "./build.js";
import { say } from "./notice.js";
import { sentenceOf } from "./server.js";
import { joined } from "./tolerances.js";
import { valueAt } from "./values.js";

const VALUES = {
  truth: (text) => text === "yes",
  list: (text) => text.split(",").map((item) => item.trim()).filter(Boolean),
  numbers: (text) => text.split(",").map((item) => item.trim()).filter(Boolean).map(number),
  corners: (text) => text.split("\n").filter((line) => line.trim()).map(corner),
};

const number = (text) => (text !== "" && Number.isFinite(Number(text)) ? Number(text) : text);
const corner = (line) => line.split(",").map((part) => part.trim());

export function startForms() {
  document.addEventListener("change", changed);
  document.addEventListener("submit", added);
  document.addEventListener("click", taken);
}

function changed(event) {
  const input = event.target.closest("#plan [data-key], #plan [data-tolerance-of]");
  if (!input || input.closest("form.adding")) return;
  const key = input.dataset.key ?? input.dataset.toleranceOf;
  const point = input.closest("[data-point]");
  const edit = point ? pointEdit(point) : fieldEdit(key);
  if (edit) keep(edit, input);
}

// What the field says, null where it was emptied.
function fieldEdit(key) {
  const input = inputOf(key);
  const { value, given } = typed(input);
  if (given) return { key, text: value };
  return valueAt(build.values, key) === undefined ? null : { key, text: null };
}

// A place is written as a whole, once all its coordinates are there.
function pointEdit(point) {
  const key = point.dataset.point;
  const parts = [...point.querySelectorAll("[data-key]")].map((input) => typed(input));
  if (parts.every((part) => part.given)) return { key, text: parts.map((part) => part.value) };
  if (parts.some((part) => part.given)) {
    say("Fill in the other coordinates too.");
    return null;
  }
  return valueAt(build.values, key) === undefined ? null : { key, text: null };
}

function typed(input) {
  const { kind, key } = input.dataset;
  if (kind === "tick") return { given: true, value: input.checked };
  if (kind === "sign") return { given: input.checked, value: input.value };
  const text = input.value.trim();
  if (kind === "quantity") {
    const spread = input.parentElement.querySelector(`[data-tolerance-of="${CSS.escape(key)}"]`);
    return { given: text !== "", value: joined(text, spread?.value.trim() ?? "") };
  }
  return { given: text !== "", value: (VALUES[kind] ?? String)(text) };
}

const inputOf = (key) =>
  document.querySelector(`#plan :not(form.adding) [data-key="${CSS.escape(key)}"]`);

async function keep(edit, input) {
  const field = input.closest("[data-field]");
  showError(field, "");
  try {
    await save([edit]);
    const again = document.getElementById(input.id) ?? input;
    again.classList.add("saved");
    setTimeout(() => again.classList.remove("saved"), 1500);
  } catch (refused) {
    showError(document.querySelector(`[data-field="${CSS.escape(field.dataset.field)}"]`), refused.sentence ?? String(refused));
  }
}

function showError(holder, words) {
  const error = holder.querySelector(".error");
  error.textContent = words;
  error.hidden = !words;
  for (const input of holder.querySelectorAll("[data-key]")) {
    if (words) input.setAttribute("aria-invalid", "true");
    else input.removeAttribute("aria-invalid");
  }
}

// A new row, or a table that was not there, as one change.
async function added(event) {
  const form = event.target.closest("form[data-adds]");
  if (!form) return;
  event.preventDefault();
  const key = form.dataset.adds;
  const folded = form.closest("details").id;
  const row = rowOf(form, key);
  for (const field of form.querySelectorAll("[data-field]")) showError(field, "");
  try {
    await save([{ key, text: row }]);
    const fresh = document.getElementById(folded);
    fresh?.querySelector("form").reset();
    if (fresh) fresh.open = false;
    say("Added.");
  } catch (refused) {
    showFormErrors(form, key, refused);
  }
}

function rowOf(form, key) {
  const row = {};
  for (const input of form.querySelectorAll("[data-key]")) {
    const { given, value } = typed(input);
    if (!given) continue;
    const point = input.closest("[data-point]");
    const name = (point?.dataset.point ?? input.dataset.key).slice(key.length + 1);
    if (point || input.dataset.kind === "sign") (row[name] ??= []).push(value);
    else row[name] = value;
  }
  return row;
}

function showFormErrors(form, key, refused) {
  const over = form.querySelector(":scope > .error");
  over.hidden = true;
  let placed = false;
  for (const problem of refused.problems ?? []) {
    const name = problem.key.split(".").find((step) => form.querySelector(`[data-field="${CSS.escape(`${key}.${step}`)}"]`));
    const field = name && form.querySelector(`[data-field="${CSS.escape(`${key}.${name}`)}"]`);
    if (!field) continue;
    showError(field, sentenceOf(problem));
    placed = true;
  }
  if (placed) return;
  over.textContent = refused.sentence ?? String(refused);
  over.hidden = false;
}

async function taken(event) {
  const button = event.target.closest("[data-removes]");
  if (!button) return;
  try {
    await save([{ key: button.dataset.removes, text: null }], "taken out");
    say("Taken out. Undo brings it back.");
  } catch (refused) {
    say(refused.sentence ?? String(refused), true);
  }
}
