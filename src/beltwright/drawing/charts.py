"""Charts as SVG for the screen and as a picture for a sheet of paper."""

from __future__ import annotations

import re
from contextlib import AbstractContextManager
from html import escape
from io import BytesIO, StringIO
from typing import TYPE_CHECKING, Any, Literal, cast

from beltwright.drawing.chart import Axis, Chart, Limit, Series, SeriesKind
from beltwright.drawing.chart_style import INK, LIMIT, NARROW, PAPER, RC, SERIES, THEMED
from beltwright.drawing.ink import Picture
from beltwright.drawing.lettering import text_width, wrap
from beltwright.drawing.paper_units import INCH
from beltwright.drawing.path import Point
from beltwright.drawing.spacing import spread_apart
from beltwright.drawing.svg import FONTS

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure


PRINT_DPI = 300
QUICK = 1  # of the nine grades of packing: lines on white pack well at once

_LINE = 4.6  # a line of text below the chart [mm]
_TEXT_HEIGHT = 9.0 * 0.3528 * 0.73  # capitals of 9 point text [mm]
_BAND = 0.16
_LABEL_PITCH = 4.4  # names of series stand at least this far apart [mm]
_SAMPLE = 13.0  # room for the short line before a name [mm]
_AXIS = 20.0  # room for the figures and the label of the y axis [mm]


def chart_svg(chart: Chart, width: float = 160.0, height: float = 95.0, prefix: str = "") -> str:
    """The chart as an SVG element that follows the light or dark theme of its page.

    `width` and `height` [mm] are those of the plot with its axes; notes and cautions stand
    below it. `prefix` goes before every id, so that several charts can stand in one page.
    """
    out = StringIO()
    with _settings():
        figure = _figure(chart, width, height)
        figure.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    return _for_page(out.getvalue(), chart, prefix)


def chart_png(
    chart: Chart, width: float = 160.0, height: float = 95.0, dpi: int = PRINT_DPI
) -> bytes:
    """The chart as a PNG picture."""
    out = BytesIO()
    with _settings():
        figure = _figure(chart, width, height)
        figure.set_facecolor("white")
        figure.axes[0].set_facecolor("white")
        figure.savefig(
            out,
            format="png",
            dpi=dpi,
            metadata={"Software": None},
            pil_kwargs={"compress_level": QUICK},
        )
    return out.getvalue()


def chart_picture(
    chart: Chart, corner: Point, width: float = 160.0, height: float = 95.0
) -> Picture:
    """The chart on a sheet of paper, its lower left corner at `corner` [mm]."""
    whole = height + _text_room(chart, width)
    return Picture(chart_png(chart, width, height), corner, width, whole, chart.title)


def _settings() -> AbstractContextManager[None]:
    """The style, for as long as one chart is drawn."""
    from matplotlib import rc_context

    return rc_context(cast(Any, RC))  # the library types its names one by one


def _text_lines(chart: Chart, width: float) -> list[tuple[str, bool]]:
    """Lines below the plot, and whether each belongs to the caution."""
    lines = [
        (line, False) for note in chart.notes for line in wrap(note, 0.96 * width, _TEXT_HEIGHT)
    ]
    if chart.caution:
        caution = wrap(f"Caution: {chart.caution}", 0.94 * width, _TEXT_HEIGHT, bold=True)
        lines += [(line, True) for line in caution]
    return lines


def _text_room(chart: Chart, width: float) -> float:
    return _LINE * len(_text_lines(chart, width)) + (2.0 if chart.notes or chart.caution else 0.0)


def _figure(chart: Chart, width: float, height: float) -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    room = _text_room(chart, width)
    names = _SAMPLE + max(text_width(s.name, _TEXT_HEIGHT) for s in chart.series)
    whole = height + room
    figure = Figure(figsize=(width / INCH, whole / INCH))
    FigureCanvasAgg(figure)
    left, bottom, top = _AXIS / width, (room + 13.0) / whole, 1.0 - 10.0 / whole
    axes = figure.add_axes((left, bottom, 1.0 - names / width - left, top - bottom))
    axes.grid(visible=True)
    axes.set_xlabel(chart.x.text)
    axes.set_ylabel(chart.y.text)
    figure.text(left, 1.0 - 3.0 / whole, chart.title, weight="bold", size=11, va="top")
    for number, series in enumerate(chart.series):
        _draw_series(axes, series, number)
    _set_ends(axes, chart)
    for limit in chart.limits:
        _draw_limit(axes, limit)
    _name_series(axes, chart, width - names - _AXIS, (top - bottom) * whole)
    for number, (line, bold) in enumerate(_text_lines(chart, width)):
        weight = "bold" if bold else "normal"
        y = (room - 2.0 - number * _LINE) / whole
        figure.text(0.02, y, line, va="top", weight=weight)
    return figure


def _draw_series(axes: Axes, series: Series, number: int) -> None:
    colour, dashes, mark = SERIES[number % len(SERIES)]
    if series.low is not None and series.high is not None:
        if series.kind == "points":
            below = [y - low for y, low in zip(series.y, series.low, strict=True)]
            above = [high - y for y, high in zip(series.y, series.high, strict=True)]
            axes.errorbar(
                series.x, series.y, (below, above), fmt="none", ecolor=colour, elinewidth=NARROW
            )
        else:
            step: Literal["post"] | None = "post" if series.kind == "steps" else None
            axes.fill_between(
                series.x, series.low, series.high, color=colour, alpha=_BAND, lw=0, step=step
            )
    styles: dict[SeriesKind, dict[str, Any]] = {
        "line": {"marker": mark, "markevery": _every(series)},
        "points": {"marker": mark, "linestyle": "none"},
        "steps": {"drawstyle": "steps-post"},
    }
    (line,) = axes.plot(series.x, series.y, color=colour, **styles[series.kind])
    if dashes and series.kind != "points":
        line.set_dashes(dashes)


def _every(series: Series) -> int:
    """A point mark on a line about eight times."""
    return max(1, len(series.x) // 8)


def _set_ends(axes: Axes, chart: Chart) -> None:
    """The ends that the chart asks for, and room for every limit."""
    for axis, name in ((chart.x, "x"), (chart.y, "y")):
        low, high = axes.get_xlim() if name == "x" else axes.get_ylim()
        for limit in chart.limits:
            if limit.axis == name:
                margin = 0.12 * (high - low)
                low, high = min(low, limit.value - margin), max(high, limit.value + margin)
        set_ends = axes.set_xlim if name == "x" else axes.set_ylim
        set_ends(*_asked(axis, low, high))


def _asked(axis: Axis, low: float, high: float) -> tuple[float, float]:
    return (low if axis.low is None else axis.low, high if axis.high is None else axis.high)


def _draw_limit(axes: Axes, limit: Limit) -> None:
    """A wide line, hatched beyond, with its name along it."""
    level = limit.axis == "y"
    low, high = axes.get_ylim() if level else axes.get_xlim()
    line, span = (axes.axhline, axes.axhspan) if level else (axes.axvline, axes.axvspan)
    marks_only = limit.broken == "neither"
    colour, width = (INK, NARROW) if marks_only else (LIMIT, 2.5 * NARROW)
    line(limit.value, color=colour, linewidth=width, zorder=3)
    if not marks_only:
        ends = (limit.value, high) if limit.broken == "above" else (low, limit.value)
        span(*ends, facecolor="none", edgecolor=LIMIT, hatch="////", alpha=0.45, lw=0, zorder=0.5)
    at = (0.012, limit.value) if level else (limit.value, 0.985)
    near_the_end = not level and limit.value > low + 0.8 * (high - low)
    axes.annotate(
        limit.name,
        at,
        xycoords=axes.get_yaxis_transform() if level else axes.get_xaxis_transform(),
        xytext=(0, 3) if level else (-3 if near_the_end else 3, 0),
        textcoords="offset points",
        va="bottom" if level else "top",
        ha="right" if near_the_end else "left",
        color=INK,
        bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 1.0},
        zorder=4,
    )


def _name_series(axes: Axes, chart: Chart, plot_width: float, plot_height: float) -> None:
    """The name of each series right of its end, with a short line in its own dashes."""
    low, high = axes.get_ylim()
    ends = [
        ((float(series.y[-1]) - low) / (high - low), number)
        for number, series in enumerate(chart.series)
    ]
    ends.sort()
    places = spread_apart(
        [min(max(share, 0.0), 1.0) for share, _ in ends], 0.0, 1.0, _LABEL_PITCH / plot_height
    )
    for place, (_, number) in zip(places, ends, strict=True):
        series, (colour, dashes, mark) = chart.series[number], SERIES[number % len(SERIES)]
        points = series.kind == "points"
        (sample,) = axes.plot(
            [1.0 + 2.0 / plot_width, 1.0 + 9.0 / plot_width],
            [place, place],
            color=colour,
            marker="" if series.kind == "steps" else mark,
            markevery=[0],
            linestyle="none" if points else "-",
            transform=axes.transAxes,
            clip_on=False,
        )
        if dashes and not points:
            sample.set_dashes(dashes)
        axes.text(
            1.0 + 11.0 / plot_width, place, series.name, transform=axes.transAxes, va="center"
        )


_ID = re.compile(r'\bid="')
_REFERENCE = re.compile(r'(url\(#|href="#)')
_FONT = re.compile(r"(?:'DejaVu Sans'|DejaVu Sans)(?:, sans-serif)?")
_METADATA = re.compile(r"\s*<metadata>.*?</metadata>", re.DOTALL)


def _for_page(text: str, chart: Chart, prefix: str) -> str:
    """The drawn SVG without its prolog, in the theme's colours, with a name for the reader."""
    body = _METADATA.sub("", text[text.index("<svg") :])
    body = _ID.sub(f'id="{prefix}', body)
    body = _REFERENCE.sub(rf"\g<1>{prefix}", body)
    body = _FONT.sub(FONTS.replace('"', "'"), body)
    for colour, name in THEMED.items():
        body = body.replace(colour, f"var(--{name}, {colour})")
    head, rest = body.split(">", 1)
    name, about = f"{prefix}chart-title", f"{prefix}chart-description"
    return (
        f'{head} class="chart" role="img" aria-labelledby="{name}" aria-describedby="{about}">'
        f'<title id="{name}">{escape(chart.title)}</title>'
        f'<desc id="{about}">{escape(chart.description())}</desc>{rest}'
    )
