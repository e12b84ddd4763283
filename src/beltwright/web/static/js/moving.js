// A thing of the drawing on the move: tried out as it goes, saved when it is let go.

import { build, save, tryOut } from "./build.js";
import { clearLive, showLive, showPlace } from "./changes.js";
import { readLength, snapped, writeLength } from "./lengths.js";
import { complain, say } from "./notice.js";
import { valueAt } from "./values.js";
import { drawing, hold, showGroups, showScene } from "./view.js";
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
const REST = 60; // ms after which a hand that does not move rests

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
    this.asked = false;
    this.asking = null;
    this.resting = null;
    this.byKeys = false;
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
    this.asked = true;
    this.follow();
    this.asking ??= this.tryAll();
  }

  by(dx, dy) {
    this.byKeys = true;
    this.to(this.at[0] + dx, this.at[1] + dy);
  }

  // The thing itself goes with the hand at once; the rest comes when it has been worked out.
  follow() {
    const thing = dragged(this.drag);
    if (!thing) return;
    const perPaper = drawing().querySelector(":scope > g").transform.baseVal.getItem(0).matrix.a;
    const [right, up] = this.at.map((mm, axis) => (mm - this.drawn[axis]) / perPaper);
    thing.setAttribute("transform", `translate(${right} ${-up})`);
  }

  edits() {
    return this.keys
      .map((key, axis) => key && { key, text: writeLength(this.at[axis], this.start[axis]) })
      .filter(Boolean);
  }

  // Always the newest place, one question at a time; every finding once the hand rests.
  async tryAll() {
    clearTimeout(this.resting);
    while (this.asked) {
      this.asked = false;
      await this.tryHere(true);
    }
    this.asking = null;
    if (!this.over) this.resting = setTimeout(() => this.tryHere(false), REST);
  }

  async tryHere(moving) {
    const here = this.at;
    const edits = this.edits();
    try {
      const tried = await saysSo(tryOut(edits, moving));
      if (this.over || (!moving && here !== this.at)) return;
      this.show(tried, here);
      const title = `${this.name} at ${edits.map((edit) => edit.text).join(", ")}`;
      if (moving) showPlace(title);
      else showLive(title, tried.changes);
    } catch (refused) {
      say(refused.sentence ?? String(refused), true);
    }
  }

  show(tried, at) {
    const focused = this.byKeys && document.activeElement?.dataset?.drag === this.drag;
    if (tried.groups) showGroups(tried.groups);
    else showScene(tried.scene);
    this.drawn = at;
    if (this.at !== at) this.follow();
    if (focused) this.focus();
  }

  async letGo() {
    this.end();
    const edits = this.edits();
    try {
      await save(edits, `${this.name} moved`);
      this.focus();
    } catch (refused) {
      showScene(this.scene);
      complain(refused);
    }
    clearLive();
  }

  giveUp() {
    this.end();
    showScene(this.scene);
    this.focus();
    clearLive();
  }

  // A hand needs no focus while it drags; to give it back each time would cost the frame.
  focus() {
    dragged(this.drag)?.focus({ preventScroll: true });
  }

  end() {
    this.over = true;
    this.asked = false;
    clearTimeout(this.resting);
  }
}
