"""A quantity and a goal: SI values that remember what the builder wrote."""

from dataclasses import dataclass

from beltwright.quantity.errors import QuantityError
from beltwright.quantity.kinds import Kind


@dataclass(frozen=True)
class Quantity:
    """A value in SI units with its tolerance, and the words it came from.

    `value`, `minus` and `plus` (the half-widths below and above, never negative) are SI, rotation
    is rad/s, angles are rad; money is in its own currency. `unit` is the unit as written, `key`
    the dotted place in the build file, `assumed` why the value was assumed, "" if it was not.
    """

    value: float
    minus: float
    plus: float
    kind: Kind
    unit: str
    text: str
    key: str = ""
    assumed: str = ""

    @property
    def low(self) -> float:
        """The lowest value that the tolerance allows [SI]."""
        return self.value - self.minus

    @property
    def high(self) -> float:
        """The highest value that the tolerance allows [SI]."""
        return self.value + self.plus

    def above_zero(self) -> "Quantity":
        """Give this quantity, or refuse it where it or its tolerance reaches 0."""
        if self.value <= 0:
            reason = f'"{self.text}" must be more than 0.'
        elif self.low <= 0:
            reason = f'"{self.text}" has a tolerance that reaches 0.'
        else:
            return self
        raise QuantityError(self.text, self.kind.noun, reason, self.kind.example)


@dataclass(frozen=True)
class Goal:
    """What the builder wants: from `low` to `high` in SI units, None where there is no limit.

    A single value wanted has `low` equal to `high`.
    """

    low: float | None
    high: float | None
    kind: Kind
    unit: str
    text: str
    key: str = ""
