// The trade-off chart: every option a point, any two merits against each other; a press picks one.

const HEIGHT = 280;

const colour = (name) => getComputedStyle(document.documentElement).getPropertyValue(`--${name}`).trim();

export function tradeOff(holder, found, pick) {
  const figure = document.createElement("figure");
  figure.innerHTML = `<figcaption>What is gained for what</figcaption><p class="pair">
    <label>across <select data-axis="x"></select></label> <label>up <select data-axis="y"></select></label></p>
    <div class="plot" role="img"></div>`;
  holder.append(figure);
  const [across, up] = figure.querySelectorAll("select");
  for (const [select, usual] of [[across, 0], [up, Math.min(3, found.merits.length - 1)]]) {
    select.replaceChildren(
      ...found.merits.map((merit, at) => new Option(merit.title, merit.name, at === usual, at === usual)),
    );
  }
  const chart = { found, pick, across, up, plot: null, picked: null, holder: figure.querySelector(".plot") };
  for (const select of [across, up]) select.addEventListener("change", () => draw(chart));
  holder.addEventListener("picked", (event) => {
    chart.picked = event.detail;
    chart.plot?.redraw();
  });
  draw(chart);
}

function draw(chart) {
  const { found, across, up, holder } = chart;
  chart.plot?.destroy();
  const numbers = [...found.options.keys()]
    .map((at) => ({ x: found.trade_off[across.value][at], y: found.trade_off[up.value][at], number: at + 1 }))
    .filter((point) => point.x !== null && point.y !== null)
    .sort((a, b) => a.x - b.x);
  chart.numbers = numbers;
  const [x, y] = [across, up].map((select) => select.selectedOptions[0].text);
  holder.ariaLabel = `${y} against ${x}, ${numbers.length} options; the table above says the same`;
  const data = [numbers.map((point) => point.x), numbers.map((point) => point.y)];
  chart.plot = new globalThis.uPlot(settings(chart, x, y), data, holder);
  chart.plot.over.addEventListener("click", (event) => pressed(chart, event));
}

function settings(chart, x, y) {
  const axis = (label) => ({ label, stroke: colour("ink"), grid: { stroke: colour("tint") }, font: "12px system-ui" });
  const roomy = (_plot, least, most) => {
    const room = (most - least || Math.abs(most) || 1) * 0.12;
    return [least - room, most + room];
  };
  return {
    width: chart.holder.clientWidth,
    height: HEIGHT,
    legend: { show: false },
    cursor: { drag: { x: false, y: false } },
    scales: { x: { time: false, range: roomy }, y: { range: roomy } },
    axes: [axis(x), { ...axis(y), size: 62 }],
    series: [{}, { stroke: colour("accent"), paths: () => null, points: { show: true, size: 11, fill: colour("paper") } }],
    hooks: { draw: [(plot) => ring(plot, chart)] },
  };
}

function ring(plot, chart) {
  const point = chart.numbers.find((each) => each.number === chart.picked);
  if (!point) return;
  const { ctx } = plot;
  ctx.save();
  ctx.fillStyle = colour("accent");
  ctx.beginPath();
  ctx.arc(plot.valToPos(point.x, "x", true), plot.valToPos(point.y, "y", true), 7 * devicePixelRatio, 0, 7);
  ctx.fill();
  ctx.restore();
}

function pressed(chart, event) {
  const away = (point) =>
    Math.hypot(chart.plot.valToPos(point.x, "x") - event.offsetX, chart.plot.valToPos(point.y, "y") - event.offsetY);
  const nearest = [...chart.numbers].sort((a, b) => away(a) - away(b))[0];
  if (nearest) chart.pick(nearest.number);
}
