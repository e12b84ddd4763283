// Finds what stands at a dotted key; names may have dots and spaces, so the longest fits.

export function valueAt(values, key) {
  let here = values;
  let rest = key;
  while (rest !== "") {
    if (here === null || typeof here !== "object") return undefined;
    const steps = Array.isArray(here) ? labels(here) : Object.keys(here);
    const fitting = steps.filter((step) => rest === step || rest.startsWith(`${step}.`));
    if (fitting.length === 0) return undefined;
    const step = fitting.reduce((a, b) => (b.length > a.length ? b : a));
    here = Array.isArray(here) ? here[steps.indexOf(step)] : here[step];
    rest = rest.slice(step.length + 1);
  }
  return here;
}

function labels(items) {
  const seen = new Set();
  return items.map((item, index) => {
    const name = item?.name;
    const label = typeof name === "string" && name && !seen.has(name) ? name : String(index);
    seen.add(label);
    return label;
  });
}
