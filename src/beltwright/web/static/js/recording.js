// A recording of the engine: sent to be listened to, and its speed put into the field beside it.

import { address, save } from "./build.js";
import { say } from "./notice.js";
import { sendForm } from "./server.js";
import { asWave } from "./wave.js";

export function startRecording() {
  document.addEventListener("submit", listen);
  document.addEventListener("click", put);
}

async function listen(event) {
  const form = event.target.closest("form.listening");
  if (!form) return;
  event.preventDefault();
  const [error, heard, button] = [".error", ".heard", "button"].map((each) => form.querySelector(each));
  const file = form.elements.recording.files[0];
  error.hidden = true;
  heard.replaceChildren();
  if (!file) {
    complain(error, "Choose a recording first.");
    return;
  }
  button.disabled = true;
  try {
    const sent = new FormData(form);
    sent.set("recording", await asWave(file), "recording");
    show(heard, await sendForm(address("/recording"), sent), form.dataset.into);
  } catch (refused) {
    complain(error, refused.sentence ?? String(refused));
  } finally {
    button.disabled = false;
  }
}

function complain(error, words) {
  error.textContent = words;
  error.hidden = false;
}

function show(heard, { readings }, key) {
  const lines = readings.map((reading) => {
    const line = document.createElement("p");
    line.innerHTML = '<b></b> <span class="hint"></span> <button type="button">Put it in</button>';
    const [value, when, button] = line.children;
    value.textContent = reading.text;
    value.title = reading.how;
    when.textContent = reading.if_so;
    button.dataset.puts = key;
    button.dataset.text = reading.text;
    button.ariaLabel = `Put in ${reading.text}`;
    return line;
  });
  const doubt = document.createElement("p");
  doubt.className = "hint";
  doubt.textContent = readings.length > 1
    ? "The sound alone does not tell these apart. Put in the one that this engine can run at."
    : readings[0].how;
  heard.replaceChildren(...lines, doubt);
}

async function put(event) {
  const button = event.target.closest("[data-puts]");
  if (!button) return;
  try {
    await save([{ key: button.dataset.puts, text: button.dataset.text }], "from a recording");
    say(`${button.dataset.text} stands in the build now. Undo takes it out.`);
  } catch (refused) {
    say(refused.sentence ?? String(refused), true);
  }
}
