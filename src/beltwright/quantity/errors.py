"""What a quantity says when it cannot be read.

QuantityError (a ValueError)
"""


class QuantityError(ValueError):
    """A text that is no quantity of the kind asked for, told in the builder's words."""

    def __init__(self, found: str, expected: str, reason: str, example: str) -> None:
        """Keep what stands there, what was wanted, why it will not do, and a good example."""
        self.found = found
        self.expected = expected
        self.reason = reason
        self.example = example
        super().__init__(f'{reason} Write {expected}, for example "{example}".')

    def __reduce__(self) -> tuple[type["QuantityError"], tuple[str, str, str, str]]:
        """Copy and pickle by the parts, not by the sentence."""
        return type(self), (self.found, self.expected, self.reason, self.example)
