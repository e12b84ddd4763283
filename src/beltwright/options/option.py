"""An option: one thing that could be bolted on in one place, and what it would change."""

from dataclasses import dataclass
from typing import Literal

from beltwright.build.shop import Part
from beltwright.review.names.naming import choice_name

Origin = Literal["as it stands", "bin", "price list", "wanted"]
"""Where an option comes from; what the builder wrote as values or a range is "wanted"."""


@dataclass(frozen=True)
class Edit:
    """A new text at a dotted key of the build file."""

    key: str
    text: str


@dataclass(frozen=True)
class Option:
    """One possibility for one place of the build.

    label   what it is, in the builder's words
    edits   what changes in the build file; none where it stays as it stands
    origin  where it comes from
    price   what must be paid for it, in the build's money
    to_buy  parts that must be bought for it
    part    the part that it takes, None where none is known
    """

    label: str
    edits: tuple[Edit, ...]
    origin: Origin = "wanted"
    price: float = 0.0
    to_buy: int = 0
    part: Part | None = None


@dataclass(frozen=True)
class Choice:
    """One place of the build and the options for it.

    of     name of the pulley, idler, belt, shaft, chain or wheel
    what   the value that changes, in words, for example "outside"
    use    the use of the part that is chosen, as [[part]] names it; "" where nothing is bought,
           as with the place of an idler
    """

    of: str
    what: str
    options: tuple[Option, ...]
    use: str = ""

    @property
    def name(self) -> str:
        """The choice in words: 'outside diameter of the engine pulley'."""
        return choice_name(self.of, self.what)

    def __len__(self) -> int:
        return len(self.options)
