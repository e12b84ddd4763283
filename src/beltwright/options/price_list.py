"""The builder's own price list: a CSV file, one thing that can be bought a line."""

import csv
from importlib import resources
from pathlib import Path

from beltwright.build.errors import BuildFileError
from beltwright.build.model import Build
from beltwright.build.shop import Part

COLUMNS = (
    "name",
    "kind",
    "section",
    "outside",
    "length",
    "length_is",
    "teeth",
    "bore",
    "size",
    "price",
)
MOST_BYTES = 4 * 1024 * 1024
STARTER = "prices_starter.csv"


class PriceListError(BuildFileError):
    """A price list that cannot be used: where, and what to do."""

    def __init__(self, file: str, line: int, reason: str) -> None:
        """Keep the place."""
        super().__init__(f"{file}, line {line}: {reason}")
        self.file = file
        self.line = line
        self.reason = reason


def prices_for(build: Build, folder: Path) -> tuple[Part, ...]:
    """The price list that a build names, beside its file; else the starter's, if one is asked for.

    The starter's prices are examples, so they count in the builder's own currency.
    """
    if not any(vary.prices for vary in build.choose.vary):
        return ()
    currency = _currency(build)
    if build.choose.price_list is None:
        return starter_prices(currency or "EUR")
    parts = load_prices(folder / build.choose.price_list)
    for part in parts:
        if part.price is not None and currency not in (None, part.price.unit):
            reason = f"{part.name} is priced in {part.price.unit}, the build in {currency}"
            raise PriceListError(build.choose.price_list, 1, reason)
    return parts


def starter_prices(currency: str = "EUR") -> tuple[Part, ...]:
    """The list that ships: standard sizes, with prices that are examples only."""
    text = resources.files("beltwright.tables").joinpath(STARTER).read_text(encoding="utf-8")
    return read_prices(text.replace(" EUR", f" {currency}"), STARTER)


def _currency(build: Build) -> str | None:
    """The currency that a build is reckoned in, if it names any."""
    prices = [part.price for part in build.part if part.price is not None]
    if build.goals.budget is not None:
        return build.goals.budget.unit
    return prices[0].unit if prices else None


def load_prices(path: Path) -> tuple[Part, ...]:
    """Read the builder's price list."""
    try:
        if path.stat().st_size > MOST_BYTES:
            raise PriceListError(path.name, 1, "the price list is larger than 4 MiB; shorten it")
        text = path.read_text(encoding="utf-8-sig")
    except OSError as refusal:
        reason = f"can't be read ({refusal.strerror}); put the file beside the build file"
        raise PriceListError(path.name, 1, reason) from None
    except UnicodeDecodeError:
        raise PriceListError(path.name, 1, "is no UTF-8 text; save it as CSV UTF-8") from None
    return read_prices(text, path.name)


def read_prices(text: str, file: str) -> tuple[Part, ...]:
    """Read the text of a price list; lines that begin with # are remarks."""
    lines = text.splitlines()
    kept = [(number, line) for number, line in enumerate(lines, 1) if _holds_data(line)]
    if not kept:
        raise PriceListError(file, 1, f"is empty; its first line should be {','.join(COLUMNS)}")
    first, heading = kept[0]
    columns = [cell.strip() for cell in next(csv.reader([heading]))]
    unknown = [name for name in columns if name not in COLUMNS]
    if unknown or "price" not in columns or "kind" not in columns:
        wrong = f"column {unknown[0]!r} is not known" if unknown else "kind or price is missing"
        raise PriceListError(file, first, f"{wrong}; the columns are {', '.join(COLUMNS)}")
    return tuple(_part(file, number, columns, line) for number, line in kept[1:])


def _holds_data(line: str) -> bool:
    return bool(line.strip()) and not line.lstrip().startswith("#")


def _part(file: str, number: int, columns: list[str], line: str) -> Part:
    cells = [cell.strip() for cell in next(csv.reader([line]))]
    if len(cells) != len(columns):
        reason = f"{len(cells)} cells under {len(columns)} columns"
        raise PriceListError(file, number, reason)
    held = {name: cell for name, cell in zip(columns, cells, strict=True) if cell}
    held.setdefault("name", _name_of(held))
    if "price" not in held:
        raise PriceListError(file, number, 'the price is missing; write it, for example "12 EUR"')
    try:
        return Part.model_validate(held)
    except ValueError as refusal:
        raise PriceListError(file, number, _first_reason(refusal)) from None


def _name_of(held: dict[str, str]) -> str:
    sizes = (held.get(name) for name in ("section", "outside", "length", "teeth", "size"))
    return " ".join([held.get("kind", "part"), *(size for size in sizes if size)])


def _first_reason(refusal: ValueError) -> str:
    errors = getattr(refusal, "errors", None)
    if errors is None:
        return str(refusal)
    first = errors()[0]
    return f"{'.'.join(str(step) for step in first['loc'])}: {first['msg']}"
