"""What a chart shows, as plain data in the units that it is read in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

SeriesKind = Literal["line", "points", "steps"]
Beyond = Literal["above", "below", "neither"]


@dataclass(frozen=True, slots=True)
class Axis:
    """One axis: what is measured, its unit, and its ends where they matter."""

    label: str
    unit: str = ""
    low: float | None = None
    high: float | None = None

    @property
    def text(self) -> str:
        """The label with its unit, as "ground speed, km/h"."""
        return f"{self.label}, {self.unit}" if self.unit else self.label


@dataclass(frozen=True, slots=True)
class Series:
    """One line or one set of points; `low` and `high` are the range of each y."""

    name: str
    x: Sequence[float]
    y: Sequence[float]
    low: Sequence[float] | None = None
    high: Sequence[float] | None = None
    kind: SeriesKind = "line"

    def __post_init__(self) -> None:
        if not len(self.x):
            raise ValueError(f"the series {self.name!r} is empty")
        for values in (self.y, self.low, self.high):
            if values is not None and len(values) != len(self.x):
                raise ValueError(f"the series {self.name!r} has unequal numbers of x and y")
        if (self.low is None) != (self.high is None):
            raise ValueError(f"the series {self.name!r} has half a range")


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit across the chart, hatched on the side where it is broken."""

    name: str
    value: float
    axis: Literal["x", "y"] = "y"
    broken: Beyond = "above"


@dataclass(frozen=True, slots=True)
class Chart:
    """A whole chart."""

    title: str
    x: Axis
    y: Axis
    series: Sequence[Series]
    limits: Sequence[Limit] = ()
    notes: Sequence[str] = ()
    caution: str = ""

    def description(self) -> str:
        """What the chart shows, for one who cannot see it."""
        parts = [f"{self.y.text} against {self.x.text}."]
        for one in self.series:
            span = f"{min(one.x):.4g} to {max(one.x):.4g}"
            parts.append(
                f"{one.name}: {min(one.y):.4g} to {max(one.y):.4g} for {self.x.label} {span}."
            )
        for limit in self.limits:
            axis = self.x if limit.axis == "x" else self.y
            parts.append(f"{limit.name} at {limit.value:.4g} {axis.unit}".rstrip() + ".")
        return " ".join([*parts, *self.notes, self.caution]).strip()
