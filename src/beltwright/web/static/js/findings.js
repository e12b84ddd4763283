// Balloons on the drawing and rows in the list: pointing at one points at the other.

export const rowOf = (id) => document.getElementById(`row-${id.replaceAll(" ", "-")}`);
const balloonOf = (id) => document.querySelector(`#balloons [data-finding="${CSS.escape(id)}"]`);

export function startFindings() {
  document.addEventListener("finding", (event) => open(event.detail));
  for (const [come, go] of [["pointerover", "pointerout"], ["focusin", "focusout"]]) {
    document.addEventListener(come, (event) => point(event, true));
    document.addEventListener(go, (event) => point(event, false));
  }
  document.addEventListener("change", (event) => {
    if (event.target.id === "topic") filter();
  });
  openNamed();
  addEventListener("load", openNamed); // which takes the focus away from what was named
  addEventListener("hashchange", openNamed);
}

function open(id) {
  const row = rowOf(id);
  if (!row) {
    const place = location.pathname.replace(/[^/]*$/, "check");
    location.assign(`${place}#row-${id.replaceAll(" ", "-")}`);
    return;
  }
  reveal(row);
  row.querySelector("details").open = true;
  row.querySelector("summary").focus({ preventScroll: true });
}

// A row or field that the address names stands open and in sight.
function openNamed() {
  const named = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
  if (!named) return;
  reveal(named);
  const folded = named.matches("details") ? named : named.querySelector(":scope > details");
  if (!folded) return;
  folded.open = true;
  folded.querySelector("summary").focus({ preventScroll: true });
}

function reveal(element) {
  for (let outer = element.parentElement; outer; outer = outer.parentElement) {
    if (outer.tagName === "DETAILS") outer.open = true;
  }
  element.hidden = false;
  element.scrollIntoView({ block: "center" });
}

function point(event, pointed) {
  const id = event.target.closest?.("[data-finding]")?.dataset.finding;
  if (!id) return;
  rowOf(id)?.classList.toggle("pointed", pointed);
  balloonOf(id)?.classList.toggle("pointed", pointed);
}

export function filter() {
  const topic = document.getElementById("topic")?.value ?? "";
  for (const row of document.querySelectorAll(".finding")) {
    row.hidden = topic !== "" && row.dataset.topic !== topic;
  }
  const sound = document.getElementById("sound-ones");
  if (sound && topic) sound.open = true;
}
