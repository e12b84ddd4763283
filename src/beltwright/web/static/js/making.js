// The sheets: which paper, and the page itself on paper.

export function startMaking() {
  document.addEventListener("change", (event) => {
    if (event.target.id !== "paper") return;
    for (const link of document.querySelectorAll(".sheet-link")) {
      const address = new URL(link.href);
      address.searchParams.set("paper", event.target.value);
      link.href = address.pathname + address.search;
    }
  });
  document.addEventListener("click", (event) => {
    if (event.target.id === "print-page") print();
  });
}
