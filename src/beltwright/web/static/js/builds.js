// The builds in the folder: a new one, a copy.

import { send } from "./server.js";

const at = (name) => `/b/${encodeURIComponent(name)}`;

document.getElementById("new-build").addEventListener("submit", async (event) => {
  event.preventDefault();
  const input = document.getElementById("new-name");
  await made(input, () => send("builds", { name: input.value.trim() }), "measure");
});

let copied = null;
const dialog = document.getElementById("name-asked");

document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-duplicate]");
  if (button) {
    copied = button.dataset;
    document.getElementById("asked-name").value = `${copied.duplicate} copy`;
    dialog.showModal();
  }
  if (event.target.id === "asked-cancel") dialog.close();
});

document.getElementById("asked-form").addEventListener("submit", async (event) => {
  event.preventDefault();
  const input = document.getElementById("asked-name");
  const path = `builds/${encodeURIComponent(copied.duplicate)}/duplicate`;
  await made(input, () => send(path, { version: copied.version, name: input.value.trim() }), "check");
});

async function made(input, make, place) {
  const error = input.parentElement.querySelector(".error");
  error.hidden = true;
  try {
    location.assign(`${at((await make()).name)}/${place}`);
  } catch (refused) {
    error.textContent = refused.sentence ?? String(refused);
    error.hidden = false;
    input.focus();
  }
}
