// One line at the foot of the page that says what just happened.

let fading;

export function say(words, lasting = false) {
  const notice = document.getElementById("notice");
  notice.textContent = words;
  notice.hidden = !words;
  clearTimeout(fading);
  if (!lasting) fading = setTimeout(() => (notice.hidden = true), 7000);
}

// Takes these words away, if they still stand there.
export function hush(words) {
  const notice = document.getElementById("notice");
  if (notice.textContent === words) notice.hidden = true;
}

export function complain(refused) {
  say(refused.sentence ?? "Something went wrong here. Load the page again.", true);
}
