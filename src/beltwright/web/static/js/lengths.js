// Lengths as the builder writes them: "905 ± 2 mm", "35 5/8 in".

const MILLIMETRES = { mm: 1, cm: 10, m: 1000, in: 25.4, '"': 25.4, ft: 304.8 };
const DIGITS = { mm: 2, cm: 3, m: 5, in: 4, '"': 4, ft: 5 };
const STEPS = {
  mm: [0.5, 1, 2, 5, 10],
  in: [1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2],
};

// The length in millimetres with how it was written, null where the text is none.
export function readLength(text) {
  const [stated, tolerance = ""] = String(text).split("±").map((part) => part.trim());
  const unit = unitOf(stated) || unitOf(tolerance) || "mm";
  const number = numberOf(stated.slice(0, stated.length - unitOf(stated).length));
  if (number === null || !(unit in MILLIMETRES)) return null;
  return { mm: number * MILLIMETRES[unit], unit, tolerance };
}

// The length in millimetres written as the other one was.
export function writeLength(mm, like) {
  const { unit, tolerance } = like;
  const number = String(Number((mm / MILLIMETRES[unit]).toFixed(DIGITS[unit])));
  return joined(`${number} ${unit}`, tolerance);
}

// A value and what follows its ±, as one text.
export function joined(stated, tolerance) {
  if (!stated || !tolerance) return stated;
  const unit = unitOf(stated);
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

// Steps to snap to, in millimetres, with their names.
export function stepsFor(unit) {
  const inches = unit === "in" || unit === '"' || unit === "ft";
  return STEPS[inches ? "in" : "mm"].map((step) => ({
    mm: inches ? step * 25.4 : step,
    name: inches ? `1/${Math.round(1 / step)} in` : `${step} mm`,
  }));
}

export const snapped = (mm, step) => Math.round(mm / step) * step;

const bare = (text, unit) => text.slice(0, text.length - unit.length).trim();

function unitOf(text) {
  return /(?:[^\d\s.,/+−-].*)?$/.exec(text)[0].trim();
}

function numberOf(text) {
  const found = /^([-−+]?)\s*(?:(\d+(?:[.,]\d+)?)(?:[\s-]+(\d+)\/(\d+))?|(\d+)\/(\d+))$/.exec(text.trim());
  if (!found) return null;
  const [, sign, whole, over, under, onlyOver, onlyUnder] = found;
  const size = whole
    ? Number(whole.replace(",", ".")) + (over ? over / under : 0)
    : onlyOver / onlyUnder;
  return sign === "-" || sign === "−" ? -size : size;
}
