"""What can be undone and redone in this session: whole texts of the build file."""


class Undo:
    """The texts before and after the one that stands.

    Texts rather than steps: an undo can then never leave the file other than it once stood.
    """

    def __init__(self) -> None:
        self._before: list[str] = []
        self._after: list[str] = []

    @property
    def can_undo(self) -> bool:
        """Whether there is an earlier text."""
        return bool(self._before)

    @property
    def can_redo(self) -> bool:
        """Whether something was undone and not overtaken."""
        return bool(self._after)

    def changed(self, earlier: str) -> None:
        """Notes the text that a change replaced; what had been undone is overtaken."""
        self._before.append(earlier)
        self._after.clear()

    def earlier(self) -> str:
        """The text that an undo would bring back."""
        return self._before[-1]

    def later(self) -> str:
        """The text that a redo would bring back."""
        return self._after[-1]

    def undone(self, current: str) -> None:
        """Notes that the earlier text now stands in place of the current one."""
        self._before.pop()
        self._after.append(current)

    def redone(self, current: str) -> None:
        """Notes that the later text now stands in place of the current one."""
        self._after.pop()
        self._before.append(current)
