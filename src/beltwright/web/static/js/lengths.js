// Lengths as the builder writes them: "905 ± 2 mm", "35 5/8 in", "3 ft 2 in", "118 +1 −2 mm".
// What moves is the number alone; unit, fraction and tolerance stay as they were typed.

const INCH = 25.4;
const UNITS = {
  mm: { mm: 1, digits: 2, spelled: "millimetres?|millimeters?|mm" },
  cm: { mm: 10, digits: 3, spelled: "centimetres?|centimeters?|cm" },
  m: { mm: 1000, digits: 5, spelled: "metres?|meters?|m" },
  in: { mm: INCH, digits: 4, spelled: "inches|inch|in|[\"″”“]|''" },
  ft: { mm: 12 * INCH, digits: 5, spelled: "feet|foot|ft|['′’]" },
  yd: { mm: 36 * INCH, digits: 5, spelled: "yards?|yd" },
  thou: { mm: INCH / 1000, digits: 1, spelled: "thou" },
};
const STEPS = {
  mm: [0.5, 1, 2, 5, 10],
  in: [1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2],
};
const FINEST = 64; // parts of an inch on the finest tape
const GLYPHS = { "½": [1, 2], "¼": [1, 4], "¾": [3, 4], "⅛": [1, 8], "⅜": [3, 8], "⅝": [5, 8], "⅞": [7, 8], "⅓": [1, 3], "⅔": [2, 3], "⅙": [1, 6], "⅚": [5, 6] };

const GLYPH = `[${Object.keys(GLYPHS).join("")}]`;
const NUMBER = `(?:\\d+(?:\\s+|-))?\\d+\\s*[/⁄]\\s*\\d+|\\d*\\s*${GLYPH}|\\d+(?:[.,]\\d+)?|[.,]\\d+`;
const UNIT = `(?:${Object.values(UNITS).map((unit) => unit.spelled).join("|")})(?!\\p{L})`;
const VALUE = new RegExp(`^\\s*([-−+]?)\\s*(${NUMBER})(?:(\\s*)(${UNIT})(?:(\\s*)(${NUMBER})(\\s*)(${UNIT}))?)?`, "u");
const LAST_UNIT = new RegExp(`${UNIT}(?=[^\\p{L}]*$)`, "u");

// The length in millimetres with how it was written, null where the text is none.
export function readLength(text) {
  const found = VALUE.exec(String(text));
  if (!found) return null;
  const [value, sign, number, gap = "", spelled = "", between, rest, restGap, restSpelled] = found;
  const tail = String(text).slice(value.length);
  if (!/^\s*(?:$|[±+−-])/.test(tail)) return null;
  const unit = unitNamed(restSpelled ?? (spelled || LAST_UNIT.exec(tail)?.[0]));
  const first = numberOf(number, unit === "in");
  const second = rest === undefined ? null : numberOf(rest, true);
  if (!unit || !first || (rest !== undefined && !paired(spelled, unit, second))) return null;
  const size = second ? first.size * 12 + second.size : first.size;
  return {
    mm: (/[-−]/.test(sign) ? -size : size) * UNITS[unit].mm,
    unit,
    minus: sign === "−" ? "−" : "-",
    form: (second ?? first).form,
    large: second ? `${gap}${spelled}${between}` : null,
    after: second ? `${restGap}${restSpelled}${tail}` : `${gap}${spelled}${tail}`,
  };
}

// The length in millimetres written as the other one was.
export function writeLength(mm, like) {
  const { unit, form, large, after } = like;
  const parts = partsOf(form, unit);
  const count = Math.round((Math.abs(mm) / UNITS[unit].mm) * parts);
  const sign = mm < 0 && count > 0 ? like.minus : "";
  const write = form.mark ? decimal : mixed;
  if (large === null) return `${sign}${write(count, parts, form)}${after}`;
  const whole = Math.floor(count / (12 * parts));
  return `${sign}${whole}${large}${write(count - whole * 12 * parts, parts, form)}${after}`;
}

const unitNamed = (spelled) =>
  spelled && Object.keys(UNITS).find((unit) => new RegExp(`^(?:${UNITS[unit].spelled})$`, "u").test(spelled));

// Feet and inches alone go together, and twelve inches make a foot.
const paired = (large, small, rest) => unitNamed(large) === "ft" && small === "in" && rest?.size < 12;

// How a number is written: with a point, a comma, or as a fraction of so many parts. A tape in inches
// has fractions, so a whole number of them may become one with a fraction.
function numberOf(text, inches) {
  const [, whole, glyph] = new RegExp(`^(\\d*)\\s*(${GLYPH})$`, "u").exec(text) ?? [];
  if (glyph) return fraction(whole, ...GLYPHS[glyph]);
  const slashed = /^(?:(\d+)(?:\s+|-))?(\d+)\s*[/⁄]\s*(\d+)$/.exec(text);
  if (slashed) return Number(slashed[3]) > 0 ? fraction(...slashed.slice(1)) : null;
  if (inches && /^\d+$/.test(text)) return fraction(text, 0, 1);
  const mark = text.includes(",") ? "," : ".";
  return { size: Number(text.replace(",", ".")), form: { mark } };
}

const fraction = (whole, over, under) => ({
  size: Number(whole || 0) + over / under,
  form: { parts: Number(under) },
});

// Into how many parts a unit is split, so that what is written is a whole number of them.
function partsOf(form, unit) {
  if (form.mark) return 10 ** UNITS[unit].digits;
  return FINEST % form.parts === 0 ? FINEST : form.parts * FINEST;
}

// "4,125" might mean thousands, "4,1250" can't.
function decimal(count, parts, { mark }) {
  const text = String(count / parts).replace(".", mark);
  return /^\d{1,3},\d{3}$/.test(text) ? `${text}0` : text;
}

function mixed(count, parts) {
  const whole = Math.floor(count / parts);
  const rest = count - whole * parts;
  if (rest === 0) return String(whole);
  const common = divisor(rest, parts);
  return `${whole > 0 ? `${whole} ` : ""}${rest / common}/${parts / common}`;
}

const divisor = (a, b) => (b === 0 ? a : divisor(b, a % b));

// Steps to snap to, in millimetres, with their names.
export function stepsFor(unit) {
  const inches = ["in", "ft", "yd", "thou"].includes(unit);
  return STEPS[inches ? "in" : "mm"].map((step) => ({
    mm: inches ? step * INCH : step,
    name: inches ? `1/${Math.round(1 / step)} in` : `${step} mm`,
  }));
}

export const snapped = (mm, step) => Math.round(mm / step) * step;
