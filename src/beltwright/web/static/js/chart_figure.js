// One chart as a figure: lines with their ranges as bands, limits, words, its numbers as a table.

const HEIGHT = 300;
const DASHES = [[], [8, 4], [2, 3], [12, 3, 2, 3], [5, 2], [1, 4], [10, 6, 2, 6], [3, 6]];
const HUES = ["#0072b2", "#d55e00", "#009e73", "#cc79a7", "#56b4e9", "#e69f00"]; // Okabe and Ito, 2008

const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();

export function chartFigure(holder, chart) {
  const figure = document.createElement("figure");
  const title = document.createElement("figcaption");
  title.textContent = chart.title;
  const canvas = document.createElement("div");
  canvas.role = "img";
  canvas.ariaLabel = chart.description;
  figure.append(title, canvas, keys(chart), ...notes(chart), table(chart));
  holder.append(figure);
  return new globalThis.uPlot(options(chart, canvas.clientWidth), chart.columns, canvas);
}

function options(chart, width) {
  const series = [{ label: chart.x.text }];
  const bands = [];
  for (const [place, row] of chart.series.entries()) {
    series[row.y] = line(row, place);
    if (row.low === null || row.high === null) continue;
    series[row.low] = series[row.high] = { show: true, width: 0, points: { show: false }, spanGaps: true };
    bands.push({ series: [row.high, row.low], fill: `${hue(place)}2e` });
  }
  return {
    width,
    height: HEIGHT,
    series,
    bands,
    legend: { show: false },
    cursor: { drag: { x: false, y: false }, points: { show: false } },
    scales: { x: { time: false, ...fixed(chart.x) }, y: fixed(chart.y, limitsOn(chart, "y")) },
    axes: [axis(chart.x), { ...axis(chart.y), size: 62 }],
    hooks: { draw: [(plot) => drawLimits(plot, chart)] },
  };
}

const hue = (place) => HUES[place % HUES.length];

const line = (row, place) => ({
  label: row.name,
  stroke: hue(place),
  width: 2,
  dash: DASHES[place % DASHES.length],
  points: { show: row.kind === "points" },
  spanGaps: true,
});

const axis = ({ text }) => ({
  label: text,
  stroke: colour("ink"),
  grid: { stroke: colour("tint"), width: 1 },
  ticks: { stroke: colour("quiet"), width: 1 },
  font: "12px system-ui",
  labelFont: "13px system-ui",
});

// The ends that the chart asks for, else those of the numbers and of the limits.
function fixed({ low, high }, limits = []) {
  return {
    range: (_plot, least, most) => {
      const ends = [least ?? 0, most ?? 1, ...limits];
      const [a, b] = [Math.min(...ends), Math.max(...ends)];
      const room = (b - a || 1) * 0.05;
      return [low ?? a - room, high ?? b + room];
    },
  };
}

const limitsOn = (chart, axisName) =>
  chart.limits.filter((limit) => limit.axis === axisName).map((limit) => limit.value);

function drawLimits(plot, chart) {
  const { ctx } = plot;
  ctx.save();
  ctx.strokeStyle = ctx.fillStyle = colour("ink");
  ctx.textAlign = "left";
  ctx.textBaseline = "alphabetic";
  ctx.font = `${12 * devicePixelRatio}px system-ui`;
  ctx.setLineDash([12, 4, 2, 4]);
  ctx.lineWidth = 1.2 * devicePixelRatio;
  const { left, top, width, height } = plot.bbox;
  for (const limit of chart.limits) {
    const at = plot.valToPos(limit.value, limit.axis, true);
    ctx.beginPath();
    if (limit.axis === "y") {
      ctx.moveTo(left, at);
      ctx.lineTo(left + width, at);
      ctx.stroke();
      ctx.fillText(limit.name, left + 6, at - 4);
    } else {
      ctx.moveTo(at, top);
      ctx.lineTo(at, top + height);
      ctx.stroke();
      ctx.fillText(limit.name, at + 4, top + 14 * devicePixelRatio);
    }
  }
  ctx.restore();
}

function keys(chart) {
  const list = document.createElement("ul");
  list.className = "keys";
  for (const [place, row] of chart.series.entries()) {
    const item = document.createElement("li");
    item.innerHTML = `<svg viewBox="0 0 26 8" aria-hidden="true"><path d="M0 4H26" stroke="${hue(place)}" stroke-width="2" stroke-dasharray="${DASHES[place % DASHES.length].join(" ")}"/></svg>`;
    item.append(row.name);
    list.append(item);
  }
  return list;
}

function notes(chart) {
  const said = chart.notes.map((note) => paragraph(note, "hint"));
  if (chart.caution) said.push(paragraph(`Caution. ${chart.caution}`, "caution"));
  return said;
}

function paragraph(text, kind) {
  const made = document.createElement("p");
  made.className = kind;
  made.textContent = text;
  return made;
}

// The same numbers for who can't see the lines, a dozen rows at most.
function table(chart) {
  const details = document.createElement("details");
  details.innerHTML = `<summary>The numbers</summary><div class="scrolled" tabindex="0" role="region"><table><thead><tr></tr></thead><tbody></tbody></table></div>`;
  details.querySelector("div").ariaLabel = `Numbers of ${chart.title}`;
  const head = details.querySelector("tr");
  const lines = chart.series;
  for (const text of [chart.x.text, ...lines.map((row) => row.name)]) cell(head, "th", text).scope = "col";
  const [xs] = chart.columns;
  const every = Math.max(1, Math.ceil(xs.length / 12));
  for (let at = 0; at < xs.length; at += every) {
    const row = details.querySelector("tbody").insertRow();
    cell(row, "td", shown(xs[at]));
    for (const each of lines) cell(row, "td", shown(chart.columns[each.y][at]));
  }
  return details;
}

const shown = (value) => (value === null ? "" : String(Number(value.toPrecision(3))));

function cell(row, kind, text) {
  const made = document.createElement(kind);
  made.textContent = text;
  row.append(made);
  return made;
}
