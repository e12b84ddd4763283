// Which plane of belts, or which height of them, is looked at.

import { build, look, onShown } from "./build.js";
import { complain } from "./notice.js";
import { seeWhole } from "./view.js";

let shown = build.view;

const choices = () => document.querySelectorAll("[name=look]");

export function startLooks() {
  document.addEventListener("change", async (event) => {
    if (event.target.name !== "look") return;
    try {
      await look(event.target.value);
    } catch (refused) {
      complain(refused);
    }
  });
  onShown(() => {
    for (const choice of choices()) choice.checked = choice.value === build.view;
    if (build.view !== shown) seeWhole();
    shown = build.view;
  });
}
