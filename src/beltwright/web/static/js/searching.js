// A search that runs while the page stays usable: started, watched, stopped, and one of what it
// found taken. Its parts on the page are called after it: NAME-start, -stop, -progress, -bar, -found.

import { address, build, change, onShown } from "./build.js";
import { complain } from "./notice.js";
import { ask, remove, send } from "./server.js";

const EVERY = 400; // ms between two looks

export class Searching {
  // `told` says how far it is in words, `share` as a share; `show` shows what was found, `leave`
  // takes away what else was shown of it.
  constructor(name, path, { told, share, show, leave = () => {} }) {
    Object.assign(this, { name, path, told, share, show, leave, job: null });
    this.part("stop").addEventListener("click", () => this.stop());
    onShown(() => {
      if (this.job && build.version !== this.job.version && this.part("found").firstChild) {
        this.end("The build has changed since. Look again.");
      }
    });
  }

  part(what) {
    return document.getElementById(`${this.name}-${what}`);
  }

  at(rest = "") {
    return `${this.path}/${this.job.id}${rest}`;
  }

  async start(more = {}) {
    try {
      const started = await send(address(this.path), { version: build.version, ...more });
      this.job = { id: started.job, version: build.version };
      this.running(true);
      this.part("found").replaceChildren();
      this.leave();
      this.watch();
    } catch (refused) {
      this.say(refused.sentence ?? String(refused));
    }
  }

  async watch() {
    try {
      const state = await ask(address(this.at()));
      if (state.state === "running") {
        this.say(this.told(state.progress), this.share(state.progress));
        setTimeout(() => this.watch(), EVERY);
        return;
      }
      this.running(false);
      this.say(state.reason);
      if (state.found) this.show(state.found);
    } catch (refused) {
      this.running(false);
      this.say(refused.sentence ?? String(refused));
    }
  }

  async stop() {
    try {
      await remove(address(this.at()));
    } catch (refused) {
      complain(refused);
    }
  }

  // Takes one of what was found into the build file; true where that went well.
  async take(option) {
    try {
      await change(this.at("/apply"), { option });
      return true;
    } catch (refused) {
      complain(refused);
      return false;
    }
  }

  end(words) {
    this.part("found").replaceChildren();
    this.leave();
    this.say(words);
    this.job = null;
  }

  running(yes) {
    for (const button of document.querySelectorAll(`[data-starts="${this.name}"]`)) button.disabled = yes;
    this.part("stop").hidden = !yes;
    this.part("bar").hidden = !yes;
  }

  say(words, share = null) {
    const line = this.part("progress");
    line.textContent = words;
    line.hidden = !words;
    if (share !== null) this.part("bar").value = share;
  }
}
