"""Undo, redo and an earlier version bring back a build file letter for letter."""

import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from beltwright.build.saving import list_history
from beltwright.web.api.sent import Edit
from beltwright.web.open_build import OpenBuild
from beltwright.web.refusal import Refusal

LINES = (
    "format = 1",
    'name = "Barrow"  # pasted\u2028from elsewhere \N{RED APPLE}',
    "[machine]",
    'wheelbase = "1200 mm"',
)
SPELLINGS = (
    "\n".join([*LINES, ""]).encode(),
    "\n".join(LINES).encode(),
    "\r\n".join([*LINES, ""]).encode(),
    b"\xef\xbb\xbf" + "\n".join([*LINES, ""]).encode(),
)
"""With and without a last line end, from another system, with a byte order mark."""

edits = st.one_of(
    st.builds(
        lambda key, text: Edit(key=key, text=text),
        st.sampled_from(["story", "machine.slope", "goals.climb", "name", "shaft.axle.diameter"]),
        st.sampled_from(["20 %", "Äpfel \N{RED APPLE} \" ' \\", "7 mm"]),
    ),
    st.builds(
        lambda name: Edit(key="shaft", text={"name": name, "at": ["1 mm", "2 mm"]}),
        st.sampled_from(["axle", "Vorgelege", "\N{RED APPLE}"]),
    ),
    st.sampled_from([Edit(key=key, text=None) for key in ("machine", "story", "shaft.0")]),
)
steps = st.lists(
    st.one_of(edits, st.sampled_from(["undo", "redo", "editor"]), st.integers(0, 30)), max_size=12
)


@given(st.sampled_from(SPELLINGS), steps)
@settings(max_examples=30)
def test_whatever_was_done_comes_back(spelling: bytes, steps: list[Edit | str | int]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "barrow.toml"
        file.write_bytes(spelling)
        build = OpenBuild("barrow", file)
        build.now()
        stood, place = [spelling], 0
        for step in steps:
            seen = build.now().version
            if step == "undo":
                if build.can_undo:
                    build.undo(seen)
                    place -= 1
            elif step == "redo":
                if build.can_redo:
                    build.redo(seen)
                    place += 1
            else:
                _change(build, file, step)
                if file.read_bytes() != stood[place]:
                    stood, place = [*stood[: place + 1], file.read_bytes()], place + 1
            assert file.read_bytes() == stood[place]


def _change(build: OpenBuild, file: Path, step: Edit | str | int) -> None:
    """An edit, a hand at the file itself, or an earlier version; a refusal leaves all as it was."""
    stands = file.read_bytes()
    seen = build.now().version
    if step == "editor":
        file.write_bytes(stands + b"\n# looked at once more\n")
        build.now()
    elif isinstance(step, int):
        kept = list_history(file)
        if kept:
            wanted = kept[step % len(kept)]
            build.restore(seen, wanted.version)
            assert file.read_bytes() == wanted.path.read_bytes()
    else:
        assert isinstance(step, Edit)
        try:
            build.edit(seen, [step], "")
        except Refusal:
            assert file.read_bytes() == stands
