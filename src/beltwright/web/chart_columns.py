"""Charts as columns: one common x, and for every series its y with the ends of its range."""

import math
from collections.abc import Sequence
from typing import Any

from beltwright.drawing.chart import Axis, Chart, Series

Column = list[float | None]


def chart_columns(name: str, chart: Chart) -> dict[str, Any]:
    """A chart as the page draws it."""
    xs = sorted({float(x) for series in chart.series for x in series.x})
    columns: list[Column] = [list(xs)]
    rows = []
    for series in chart.series:
        row: dict[str, Any] = {"name": series.name, "kind": series.kind, "y": len(columns)}
        columns.append(_column(xs, series, series.y))
        for end, values in (("low", series.low), ("high", series.high)):
            row[end] = None if values is None else len(columns)
            if values is not None:
                columns.append(_column(xs, series, values))
        rows.append(row)
    return {
        "name": name,
        "title": chart.title,
        "description": chart.description(),
        "x": _axis(chart.x),
        "y": _axis(chart.y),
        "series": rows,
        "columns": columns,
        "limits": [
            {"name": limit.name, "value": limit.value, "axis": limit.axis, "broken": limit.broken}
            for limit in chart.limits
        ],
        "notes": list(chart.notes),
        "caution": chart.caution,
    }


def _axis(axis: Axis) -> dict[str, Any]:
    return {
        "label": axis.label,
        "unit": axis.unit,
        "text": axis.text,
        "low": axis.low,
        "high": axis.high,
    }


def _column(xs: Sequence[float], series: Series, values: Sequence[float]) -> Column:
    """The values at the common x; None where this series has no point."""
    at = {float(x): float(y) for x, y in zip(series.x, values, strict=True)}
    return [y if (y := at.get(x)) is not None and math.isfinite(y) else None for x in xs]
