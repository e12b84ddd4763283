"""A text that knows the place in the build file where it stands."""


class Written(str):
    """A text of the build file with its dotted key."""

    __slots__ = ("key",)
    key: str

    def __new__(cls, text: str, key: str) -> "Written":
        """Keep the text and the place."""
        written = super().__new__(cls, text)
        written.key = key
        return written

    def __reduce__(self) -> tuple[type["Written"], tuple[str, str]]:
        """Let a copy know its place too."""
        return Written, (str(self), self.key)


def place_of(text: str) -> str:
    """Give the dotted key of a text, "" if it has none."""
    return text.key if isinstance(text, Written) else ""
