// A thing of the drawing on the move: tried out as it goes, saved when it is let go.

import { build, save, tryOut } from "./build.js";
import { showLive, clearLive } from "./changes.js";
import { readLength, snapped, writeLength } from "./lengths.js";
import { complain, say } from "./notice.js";
import { valueAt } from "./values.js";
import { drawing, hold, showScene } from "./view.js";
import { saysSo } from "./working.js";

// The keys of both its places; a thing that moves up and down alone has none for the first.
export const keysOf = (element) => {
  const both = element.dataset.drag;
  if (both.startsWith(" ")) return ["", both.slice(1)];
  const half = (both.length - 1) / 2;
  return [both.slice(0, half), both.slice(half + 1)];
};

export const dragged = (key) => document.querySelector(`#scene [data-drag="${CSS.escape(key)}"]`);

const FIXED = { mm: 0 };

export class Moving {
  constructor(element, step) {
    this.drag = element.dataset.drag;
    this.name = element.dataset.name ?? "it";
    this.keys = keysOf(element);
    this.step = step;
    this.start = this.keys.map((key) => (key ? readLength(valueAt(build.values, key)) : FIXED));
    this.at = this.start.map((length) => length?.mm);
    this.drawn = this.at;
    this.scene = document.getElementById("scene").innerHTML;
    this.asked = null;
    this.asking = null;
    hold();
  }

  get possible() {
    return this.start.every((length) => length !== null);
  }

  get moved() {
    return this.at.some((mm, axis) => Math.abs(mm - this.start[axis].mm) > 1e-6);
  }

  // To a place in millimetres of the machine, x forward and y left, snapped to the step.
  to(x, y) {
    const at = [x, y].map((mm, axis) => (this.keys[axis] ? snapped(mm, this.step) : FIXED.mm));
    if (at[0] === this.at[0] && at[1] === this.at[1]) return;
    this.at = at;
    this.asked = this.edits();
    this.follow();
    this.asking ??= this.tryAll();
  }

  by(dx, dy) {
    this.to(this.at[0] + dx, this.at[1] + dy);
  }

  // The thing itself goes with the hand at once; the rest comes when it has been worked out.
  follow() {
    const thing = dragged(this.drag);
    if (!thing) return;
    const paper = drawing().getScreenCTM().a / thing.parentNode.getScreenCTM().a;
    const [right, up] = this.at.map((mm, axis) => (mm - this.drawn[axis]) * paper);
    thing.setAttribute("transform", `translate(${right} ${-up})`);
  }

  edits() {
    return this.keys
      .map((key, axis) => key && { key, text: writeLength(this.at[axis], this.start[axis]) })
      .filter(Boolean);
  }

  // Always the newest place, one question at a time.
  async tryAll() {
    while (this.asked) {
      const edits = this.asked;
      const asked = this.at;
      this.asked = null;
      try {
        const tried = await saysSo(tryOut(edits));
        if (this.over) break;
        const focused = document.activeElement?.dataset?.drag === this.drag;
        showScene(tried.scene);
        this.drawn = asked;
        this.follow();
        if (focused) dragged(this.drag)?.focus({ preventScroll: true });
        showLive(`${this.name} at ${edits.map((edit) => edit.text).join(", ")}`, tried.changes);
      } catch (refused) {
        say(refused.sentence ?? String(refused), true);
      }
    }
    this.asking = null;
  }

  async letGo() {
    this.over = true;
    const edits = this.edits();
    try {
      await save(edits, `${this.name} moved`);
      dragged(this.drag)?.focus({ preventScroll: true });
    } catch (refused) {
      showScene(this.scene);
      complain(refused);
    }
    clearLive();
  }

  giveUp() {
    this.over = true;
    this.asked = null;
    showScene(this.scene);
    clearLive();
  }
}
