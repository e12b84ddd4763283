// A review that takes long: says for how long it has been at work, and opens the page once it is done.

const waited = document.getElementById("waited");
const begun = Date.now();

const tell = () => {
  const seconds = Math.round((Date.now() - begun) / 1000);
  waited.textContent = `At work for ${seconds} s.`;
};

tell();
setInterval(tell, 1000);

// this question is answered when the review is done, however it ends
fetch(`/api/builds/${encodeURIComponent(waited.dataset.build)}`).finally(() => location.reload());
