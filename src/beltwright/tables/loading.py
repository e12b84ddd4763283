"""Reads a published table: a CSV file that opens with its source, into typed frozen rows in SI.

A table file looks like this (the names after the first `#` lines are free to choose)::

    # source: RMA IP-20, table 5
    # edition: 1988
    # unit: inches, as printed
    # status: seen in print
    section,top_width [in],groove_angle [deg],note
    A,0.500,34,

The header names of the columns are the fields of the row's NamedTuple. A unit in brackets turns a
printed number into SI while it is read, so the file keeps the figures that its source prints. A row
that has a method `check` refuses figures that cannot be by a ValueError.
"""

import csv
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache, cached_property
from importlib import resources
from math import radians
from typing import Any, Generic, NamedTuple, TypeVar, cast, get_type_hints

from beltwright.quantity.units import FOOT, ICE_POINT, INCH, MINUTE, POUND_FORCE

Row = TypeVar("Row")

STATUS = ("exact", "seen in print", "derived", "from memory", "common practice", "assumed")
"""How far a figure can be trusted, best first."""

SI_PER_UNIT = {
    "1": 1.0,
    "%": 0.01,
    "m": 1.0,
    "mm": 0.001,
    "in": float(INCH),
    "m/s": 1.0,
    "ft/min": float(FOOT / MINUTE),
    "kg/m": 1.0,
    "g/m": 0.001,
    "kg/m3": 1.0,
    "kg/L": 1000.0,
    "Pa": 1.0,
    "kPa": 1e3,
    "MPa": 1e6,
    "GPa": 1e9,
    "bar": 1e5,
    "psi": float(POUND_FORCE / INCH**2),
    "N": 1.0,
    "kN": 1e3,
    "lbf": float(POUND_FORCE),
    "lbf in": float(POUND_FORCE * INCH),
    "deg": radians(1.0),
    "cSt": 1e-6,
    "mm2/s": 1e-6,
    "mm2": 1e-6,
    "in2": float(INCH**2),
    "W/m2K": 1.0,
    "1/K": 1.0,
    "J/kgK": 1.0,
    "N m": 1.0,
}
"""What one printed unit is in SI; a rate "per inch" is written 1/in."""
SI_PER_UNIT |= {"1/in": float(1 / INCH), "1/m": 1.0}

ZERO_CELSIUS = float(ICE_POINT)


class TableError(ValueError):
    """A table file that cannot be used; says which file, which line and why."""

    def __init__(self, table: str, line: int, reason: str) -> None:
        super().__init__(f"{table}.csv, line {line}: {reason}")
        self.table = table
        self.line = line
        self.reason = reason


class UnlistedError(KeyError):
    """A name that a published table does not have; says which names it has."""

    def __init__(self, what: str, name: str, known: Iterable[str]) -> None:
        self.name, self.known = name, tuple(known)
        super().__init__(f"{what} {name!r} is not known; known are {', '.join(self.known)}")


@dataclass(frozen=True)
class Table(Generic[Row]):
    """The rows of one published table, with where they come from."""

    name: str
    source: str
    edition: str
    unit: str
    status: str
    rows: tuple[Row, ...]

    def __iter__(self) -> Iterator[Row]:
        return iter(self.rows)

    def __len__(self) -> int:
        return len(self.rows)

    def named(self, name: str) -> Row:
        """The row whose first field reads `name`; UnlistedError lists what there is."""
        found = self._by_first_field.get(name)
        if found is None:
            raise UnlistedError(self.name, name, self._by_first_field)
        return found

    @cached_property
    def _by_first_field(self) -> dict[str, Row]:
        return {str(cast("tuple[object, ...]", row)[0]): row for row in self.rows}


def load(name: str, row_type: type[Row]) -> Table[Row]:
    """Read `tables/NAME.csv` into rows of the NamedTuple `row_type`, once per process.

    A field called `source` or `status` that has no column takes the table's own. A field with a
    default takes it where its cell is empty or its column is missing.
    """
    as_key: Any = row_type
    return cast("Table[Row]", _loaded(name, as_key))


@cache
def _loaded(name: str, row_type: type[Any]) -> Table[Any]:
    text = resources.files(__package__).joinpath(f"{name}.csv").read_text(encoding="utf-8")
    return read_table(name, text, row_type)


def read_table(name: str, text: str, row_type: type[Row]) -> Table[Row]:
    """Read the text of a table; TableError where it has no source or a cell does not fit."""
    lines = text.splitlines()
    heading, first = _heading(name, lines)
    reader = csv.reader(lines[first:])
    header = next(reader, None)
    if not header:
        raise TableError(name, first + 1, "there is no row of column names")
    form = _form(name, first + 1, header, heading, row_type)
    rows = []
    for cells in reader:
        if not cells:
            continue
        line = first + reader.line_num
        if len(cells) != len(header):
            raise TableError(name, line, f"{len(cells)} cells under {len(header)} column names")
        rows.append(_row(name, line, cells, form))
    if not rows:
        raise TableError(name, len(lines), "there are no rows")
    return Table(
        name=name,
        source=heading["source"],
        edition=heading.get("edition", ""),
        unit=heading.get("unit", ""),
        status=heading["status"],
        rows=tuple(rows),
    )


def _heading(name: str, lines: list[str]) -> tuple[dict[str, str], int]:
    """The `# key: text` lines on top (a line without a key goes on with the one before)."""
    heading: dict[str, str] = {}
    key = ""
    first = 0
    for line in lines:
        if not line.startswith("#"):
            break
        first += 1
        word, colon, text = line[1:].strip().partition(":")
        if colon and word in ("source", "edition", "unit", "status", "note"):
            key = word
            heading[key] = f"{heading[key]} {text.strip()}" if key in heading else text.strip()
        elif key:
            heading[key] += " " + line[1:].strip()
    if not heading.get("source"):
        raise TableError(name, 1, "a table needs a line '# source: …'")
    _refuse_unknown_status(name, 1, heading.get("status", ""))
    return heading, first


def _refuse_unknown_status(name: str, line: int, status: str) -> None:
    if not status.startswith(STATUS):
        known = ", ".join(STATUS)
        raise TableError(name, line, f"status {status!r} must begin with one of: {known}")


class _Column(NamedTuple):
    field: str
    convert: Callable[[str], Any]


@dataclass(frozen=True)
class _Form(Generic[Row]):
    """What the rows of a table are made from: columns, what the heading gives, what may lack."""

    row_type: type[Row]
    columns: list[_Column]
    from_heading: dict[str, str]
    may_lack: frozenset[str]


def _form(
    name: str, line: int, header: list[str], heading: dict[str, str], row_type: type[Row]
) -> _Form[Row]:
    own: Any = row_type
    from_heading = {name: heading[name] for name in ("source", "status") if name in own._fields}
    return _Form(
        row_type=row_type,
        columns=_columns(name, line, header, row_type),
        from_heading=from_heading,
        may_lack=frozenset(own._field_defaults.keys() | from_heading.keys()),
    )


def _columns(name: str, line: int, header: list[str], row_type: type[Any]) -> list[_Column]:
    kinds = get_type_hints(row_type)
    columns = []
    for title in header:
        field, _, unit = title.strip().partition(" [")
        if field not in kinds:
            raise TableError(name, line, f"{row_type.__name__} has no field {field!r}")
        columns.append(_Column(field, _converter(name, line, kinds[field], unit.rstrip("]"))))
    given = {column.field for column in columns} | {"source", "status"}
    for wanted in row_type._fields:
        if wanted not in given and wanted not in row_type._field_defaults:
            raise TableError(name, line, f"there is no column for {wanted!r}")
    return columns


def _converter(name: str, line: int, kind: Any, unit: str) -> Callable[[str], Any]:
    if kind is str:
        return str.strip
    if kind is int:
        return int
    if kind is bool:
        return {"yes": True, "no": False}.__getitem__
    if unit in ("°C", "degC"):
        return lambda cell: float(cell) + ZERO_CELSIUS
    if unit and unit not in SI_PER_UNIT:
        raise TableError(name, line, f"unit {unit!r} is not in SI_PER_UNIT")
    factor = SI_PER_UNIT[unit or "1"]
    return lambda cell: float(cell) * factor


def _row(name: str, line: int, cells: list[str], form: _Form[Row]) -> Row:
    values: dict[str, Any] = dict(form.from_heading)
    for column, cell in zip(form.columns, cells, strict=True):
        if not cell.strip() and column.field in form.may_lack:
            continue
        try:
            values[column.field] = column.convert(cell)
        except (ValueError, KeyError):
            reason = f"{column.field}: {cell!r} is not what the column holds"
            raise TableError(name, line, reason) from None
    if "status" in values:
        _refuse_unknown_status(name, line, values["status"])
    try:
        row = form.row_type(**values)
        getattr(row, "check", _no_check)()
    except ValueError as refusal:
        raise TableError(name, line, str(refusal)) from None
    return row


def _no_check() -> None:
    """Most rows may hold whatever their columns hold."""
