// A value and its tolerance, as the two boxes of a field hold them.

// A value and what follows its ±, as one text.
export function joined(stated, tolerance) {
  if (!stated || !tolerance) return stated;
  if (/^[+−-]/.test(tolerance)) return `${stated} ${tolerance}`;
  const unit = unitOf(stated);
  if (/\d/.test(unit)) return `${stated} ± ${tolerance}`;
  if (unitOf(tolerance) === "" && unit) return `${bare(stated, unit)} ± ${tolerance} ${unit}`;
  if (unitOf(tolerance) === unit) return `${bare(stated, unit)} ± ${tolerance}`;
  return `${stated} ± ${tolerance}`;
}

// "118 ± 1 mm" in its two parts, each with its unit.
export function parted(text) {
  const [stated, tolerance = ""] = String(text ?? "").split("±").map((part) => part.trim());
  const unit = unitOf(tolerance);
  return { stated: unit && !unitOf(stated) ? `${stated} ${unit}` : stated, tolerance };
}

const bare = (text, unit) => text.slice(0, text.length - unit.length).trim();

function unitOf(text) {
  return /(?:[^\d\s.,/+−-].*)?$/.exec(text)[0].trim();
}
