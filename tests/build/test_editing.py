"""Edits keep comments and order, and change nothing else."""

import difflib
import tomllib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.build.editing import add_table, remove, set_value, value_for
from beltwright.build.toml_writing import toml_of

TEXT = """\
# top
format = 1 # first
name = "x"   # named

# the goals
[goals]
budget = "160 EUR"   # all in all

# the machine
[machine]
driver = { mass = "82 kg", hip = ["1 mm", "2 mm", "3 mm"] } # who
ground = [
  "gravel", # yard
  # and
  "mud",
]

[[machine.load]]
name = "crates"
mass = "70 kg"

[[idler]]
name = "a"
outside = "83 mm" # caliper

[idler.arm]
length = "150 mm"

# the second one
[[idler]]
name = "b"
outside = "70 mm"

[[obstacle]]
name = "rail"
outline = [
  ["1 mm", "1 mm"],
  ["2 mm", "1 mm"],
]

[gearbox]
input = "in"
"""


def changed(new: str) -> list[str]:
    """Give the lines that an edit took out and put in."""
    diff = difflib.ndiff(TEXT.splitlines(), new.splitlines())
    return [line for line in diff if line[0] in "+-"]


@pytest.mark.parametrize(
    ("key", "value", "lines"),
    [
        (
            "goals.budget",
            "200 EUR",
            ['- budget = "160 EUR"   # all in all', '+ budget = "200 EUR"   # all in all'],
        ),
        ("machine.ground.0", "grass", ['-   "gravel", # yard', '+   "grass", # yard']),
        (
            "idler.a.outside",
            "80 mm",
            ['- outside = "83 mm" # caliper', '+ outside = "80 mm" # caliper'],
        ),
        ("goals.climb", "20 %", ['+ climb = "20 %"']),
        ("machine.slope", "20 %", ['+ slope = "20 %"']),
        ("story", "long", ['+ story = "long"']),
        ("idler.a.face", "flat", ['+ face = "flat"']),
        ("idler.a.arm.released", "24 deg", ['+ released = "24 deg"']),
        ("obstacle.rail.gap", "5 mm", ['+ gap = "5 mm"']),
        ("brake.friction", "0.35", ["+ ", "+ [brake]", '+ friction = "0.35"']),
        ("gearbox.vent", "none", ['+ vent = "none"']),
    ],
)
def test_one_value_changes_one_line(key: str, value: str, lines: list[str]) -> None:
    assert changed(set_value(TEXT, key, value)) == lines


def test_a_value_in_an_inline_table() -> None:
    new = set_value(TEXT, "machine.driver.hip.1", "9 mm")
    assert tomllib.loads(new)["machine"]["driver"]["hip"] == ["1 mm", "9 mm", "3 mm"]
    assert "# who" in new


def test_a_new_value_stands_in_its_own_table_not_under_the_next_comment() -> None:
    new = set_value(TEXT, "goals.climb", "20 %").splitlines()
    assert new[new.index('climb = "20 %"') - 1].startswith("budget")


def test_a_table_is_added_after_its_kind() -> None:
    new = add_table(TEXT, "idler", {"name": "c", "outside": "60 mm", "at": ["1 mm", "2 mm"]})
    block = '[[idler]]\nname = "c"\noutside = "60 mm"\nat = ["1 mm", "2 mm"]\n\n'
    assert new == TEXT.replace("[[obstacle]]", f"{block}[[obstacle]]")
    assert [each["name"] for each in tomllib.loads(new)["idler"]] == ["a", "b", "c"]


@pytest.mark.parametrize("key", ["belt", "machine.load", "choose.vary"])
def test_a_table_is_added_where_it_belongs(key: str) -> None:
    there: Any = tomllib.loads(add_table(TEXT, key, {"name": "new", "count": 2}))
    for step in key.split("."):
        there = there[step]
    assert there[-1] == {"name": "new", "count": 2}


def test_a_table_is_removed_with_its_comment_and_its_parts() -> None:
    new = remove(TEXT, "idler.b")
    assert "the second one" not in new
    assert [each["name"] for each in tomllib.loads(new)["idler"]] == ["a"]
    without = remove(new, "idler.a")
    assert "idler" not in tomllib.loads(without)
    assert "# top" in without


@pytest.mark.parametrize("key", ["goals.budget", "machine.driver", "machine.ground.0", "gearbox"])
def test_a_value_is_removed(key: str) -> None:
    before, after = tomllib.loads(TEXT), tomllib.loads(remove(TEXT, key))
    assert after != before
    assert set(after) >= set(before) - {"gearbox"}


@pytest.mark.parametrize("key", ["idler.z.outside", "name.first", "machine.ground.7"])
def test_a_key_that_leads_nowhere_is_told(key: str) -> None:
    with pytest.raises(KeyError):
        set_value(TEXT, key, "1 mm")


@pytest.mark.parametrize("key", ["goals.climb", "idler.z"])
def test_what_is_not_there_cannot_be_removed(key: str) -> None:
    with pytest.raises(KeyError):
        remove(TEXT, key)


def test_windows_line_ends_stay() -> None:
    new = set_value(TEXT.replace("\n", "\r\n"), "goals.climb", "20 %")
    assert "\n" not in new.replace("\r\n", "")


@pytest.mark.parametrize("mark", ["\u2028", "\u2029", "\x85"])
def test_only_a_line_feed_ends_a_line(mark: str) -> None:
    text = TEXT.replace("\n", f" # pasted{mark}from elsewhere\n", 1)
    assert text != TEXT
    new = add_table(text, "idler", {"name": "c"})
    assert remove(new, "idler.c") == text
    assert tomllib.loads(set_value(text, "goals.climb", "20 %"))["goals"]["climb"] == "20 %"


@pytest.mark.parametrize(
    ("key", "written", "value"),
    [
        ("belt.b.count", "2", 2),
        ("belt.b.count", "two", "two"),
        ("gearbox.forward.0", "12.1", 12.1),
        ("gear.g.inside", "true", True),
        ("idler.b.outside", "70 mm", "70 mm"),
    ],
)
def test_what_is_typed_becomes_what_the_model_has_there(
    key: str, written: str, value: object
) -> None:
    tables = ['[[belt]]\nname = "b"', '[[gear]]\nname = "g"', "[gearbox]\nforward = [1.0]"]
    typed = value_for("\n".join([*tables, '[[idler]]\nname = "b"']), key, written)
    assert typed == value
    assert type(typed) is type(value)


names = st.text(st.characters(codec="utf-8", exclude_characters="\r\n"), min_size=1, max_size=12)
leaves = st.text(st.characters(codec="utf-8", exclude_characters="\r"), max_size=20) | st.booleans()
trees = st.recursive(
    leaves | st.integers(-(2**60), 2**60) | st.floats(allow_nan=False),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(names, inner, max_size=3),
    max_leaves=8,
)


@given(trees)
def test_any_value_reads_back(value: object) -> None:
    assert tomllib.loads(f"it = {toml_of(value)}")["it"] == value  # type: ignore[arg-type]


@given(
    st.sampled_from(
        ["goals.climb", "machine.driver.mass", "idler.a.arm.length", "idler.b.face", "k"]
    ),
    st.text(st.characters(codec="utf-8", exclude_characters="\r"), max_size=20),
)
def test_an_edit_changes_its_own_value_only(key: str, value: str) -> None:
    new = set_value(TEXT, key, value)
    comments = [line for line in TEXT.splitlines() if line.startswith("#")]
    assert [line for line in new.splitlines() if line in comments] == comments
    assert tomllib.loads(set_value(new, key, "back")) == tomllib.loads(set_value(TEXT, key, "back"))
