"""How far a search is, how fast it goes and how long it will take."""

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Progress:
    """How far a search is.

    disposed    candidates looked at or ruled out so far
    candidates  how many there are
    fitting     options that fit and that nothing found so far beats
    seconds     time since it began
    """

    disposed: int
    candidates: int
    fitting: int
    seconds: float

    @property
    def rate(self) -> float:
        """Candidates a second."""
        return self.disposed / self.seconds if self.seconds > 0.0 else 0.0

    @property
    def seconds_left(self) -> float | None:
        """Time left at this rate; None before there is one."""
        return (self.candidates - self.disposed) / self.rate if self.rate > 0.0 else None


Report = Callable[[Progress], None]
