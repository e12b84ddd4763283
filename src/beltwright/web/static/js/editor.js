// Numbers of a thing on the drawing, edited where it stands.

import { build, save, seenFrom } from "./build.js";
import { keysOf } from "./moving.js";
import { joined, parted } from "./tolerances.js";
import { valueAt } from "./values.js";

const AXES = { above: ["x, forward", "y, left"], "the right": ["x, forward", "z, up"] };
const OWN = {
  pulley: ["outside", "pitch", "height"],
  idler: ["outside", "height"],
  belt: ["length"],
  obstacle: ["from_height", "to_height"],
};

let was = [];

export function edit(thing) {
  const fields = fieldsOf(thing);
  if (fields.length === 0) return measure(thing.dataset.key);
  const dialog = document.getElementById("editor");
  dialog.querySelector("h2").textContent = thing.dataset.name ?? nameOf(fields[0].key);
  was = fields;
  document.getElementById("editor-fields").replaceChildren(...fields.map(asField));
  showError("");
  dialog.showModal();
  put(dialog, thing.getBoundingClientRect());
  dialog.querySelector("input").select();
}

function fieldsOf(thing) {
  const { drag, key } = thing.dataset;
  const keys = drag ? keysOf(thing).map((each, axis) => ({ key: each, label: AXES[seenFrom()][axis] })).filter((each) => each.key) : [];
  const [kind] = (key ?? "").split(".");
  if (key && typeof valueAt(build.values, key) === "string") keys.push({ key, label: lastOf(key) });
  else for (const own of OWN[kind] ?? []) {
    keys.push({ key: `${key}.${own}`, label: own.replaceAll("_", " ") });
  }
  return keys
    .map((field) => ({ ...field, text: valueAt(build.values, field.key) }))
    .filter((field) => typeof field.text === "string");
}

// What has no numbers of its own here has them under Measure.
function measure(key) {
  const [kind] = key.split(".");
  const table = `table-${key.replaceAll(" ", "-")}`;
  const there = document.getElementById(table) ? table : `table-${kind}`;
  if (document.getElementById(there)) location.hash = there;
  else location.assign(`${location.pathname.replace(/[^/]*$/, "measure")}#${table}`);
}

const lastOf = (key) => key.slice(key.lastIndexOf(".") + 1).replaceAll("_", " ");
const nameOf = (key) => key.split(".").slice(1, -1).join(", ") || key;

function asField({ key, label, text }, index) {
  const { stated, tolerance } = parted(text);
  const row = document.createElement("div");
  row.className = "field";
  row.innerHTML = `<label class="name" for="edit-${index}"></label><div class="entry"><span class="quantity">
    <input id="edit-${index}" autocomplete="off" spellcheck="false"><span aria-hidden="true">±</span>
    <input class="tolerance" autocomplete="off" spellcheck="false"></span></div>`;
  row.querySelector("label").textContent = label;
  const [value, spread] = row.querySelectorAll("input");
  value.value = stated;
  value.dataset.edits = key;
  spread.value = tolerance;
  spread.ariaLabel = `${label}, give or take`;
  return row;
}

// Beside the thing where there is room, else in the middle.
function put(dialog, box) {
  const roomy = innerWidth > 720;
  dialog.style.margin = roomy ? "0" : "";
  dialog.style.left = dialog.style.top = "";
  if (!roomy) return;
  const own = dialog.getBoundingClientRect();
  const right = box.right + 12 + own.width < innerWidth;
  dialog.style.left = `${Math.max(8, right ? box.right + 12 : box.left - own.width - 12)}px`;
  dialog.style.top = `${Math.max(8, Math.min(box.top, innerHeight - own.height - 8))}px`;
}

export function startEditor() {
  const dialog = document.getElementById("editor");
  document.getElementById("editor-cancel").addEventListener("click", () => dialog.close());
  document.getElementById("editor-form").addEventListener("submit", async (event) => {
    event.preventDefault();
    const edits = [...dialog.querySelectorAll("[data-edits]")]
      .map((input) => ({
        key: input.dataset.edits,
        text: joined(input.value.trim(), input.parentElement.querySelector(".tolerance").value.trim()),
      }))
      .filter((made) => made.text !== was.find((field) => field.key === made.key).text);
    try {
      if (edits.length > 0) await save(edits);
      dialog.close();
    } catch (refused) {
      const problem = refused.problems?.[0];
      showError(refused.sentence ?? String(refused));
      const wrong = [...dialog.querySelectorAll("[data-edits]")].find((i) => i.dataset.edits === problem?.key);
      wrong?.setAttribute("aria-invalid", "true");
      wrong?.focus();
    }
  });
}

function showError(words) {
  const error = document.getElementById("editor-error");
  error.textContent = words;
  error.hidden = !words;
  for (const input of document.querySelectorAll("#editor [aria-invalid]")) input.removeAttribute("aria-invalid");
}
