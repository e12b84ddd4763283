"""A build file is read whole, or every problem is told with its line, key and an example."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.build.errors import BuildError, Problem
from beltwright.build.reading import read_build, read_text

SMALL = """\
# A small build.
format = 1
name = "Trial"

[goals]
budget = "160 EUR"  # all in all

[machine]
wheelbase = "1235 ± 5 mm"
driver = { mass = "82 kg", hip = [
  "330 mm",
  "0 mm",
  "610 mm",
] }

[[shaft]]
name = "engine"
at = ["900 mm", "0 mm"]

[[shaft]]
name = "input"
at = ["180 mm", "30 mm"]

[[pulley]]
name = "small"
shaft = "engine"
outside = "95 ± 0.5 mm"
groove = "A"

[[pulley]]
name = "large"
shaft = "input"
outside = "204 mm"
groove = "A"

[[belt]]
name = "traction belt"
section = "A"
length = "67 in"
length_is = "inside"
run = [
  "small",  # on the engine
  "large",
]

[[part]]
name = "belt"
price = "19 EUR"
"""


def problems(text: str) -> tuple[Problem, ...]:
    """Read a text that must be refused."""
    with pytest.raises(BuildError) as refused:
        read_text(text, "trial.toml")
    return refused.value.problems


def refused_reasons(text: str) -> list[str]:
    """Give the reasons for refusing a text, none where it is read."""
    try:
        read_text(text)
    except BuildError as refused:
        return [problem.reason for problem in refused.problems]
    return []


def first_change(text: str) -> int:
    """Give the number of the first line in which a text differs from the small build."""
    pairs = zip(SMALL.splitlines(), text.splitlines(), strict=False)
    return next(n for n, (old, new) in enumerate(pairs, 1) if old != new)


def line_with(text: str, fragment: str) -> int:
    """Give the number of the line that holds a fragment."""
    return next(n for n, line in enumerate(text.splitlines(), 1) if fragment in line)


def test_the_small_build_is_read_with_its_keys() -> None:
    build = read_text(SMALL)
    outside = build.pulley[0].outside
    assert outside is not None
    assert outside.key == "pulley.small.outside"
    assert (outside.low, outside.high) == pytest.approx((0.0945, 0.0955), rel=1e-12)
    assert build.shaft[0].at[1].key == "shaft.engine.at.1"
    assert build.machine.driver is not None
    assert build.machine.driver.mass.key == "machine.driver.mass"


@pytest.mark.parametrize(
    ("old", "new", "key", "reason"),
    [
        ('"95 ± 0.5 mm"', '"95 kg"', "pulley.small.outside", "a unit for a mass"),
        ('"95 ± 0.5 mm"', '"95"', "pulley.small.outside", "unit is missing"),
        ('"95 ± 0.5 mm"', "95", "pulley.small.outside", "quotes"),
        ('"95 ± 0.5 mm"', "nan", "pulley.small.outside", "quotes"),
        ('"95 ± 0.5 mm"', "inf", "pulley.small.outside", "quotes"),
        ('"95 ± 0.5 mm"', "true", "pulley.small.outside", "quotes"),
        ('"95 ± 0.5 mm"', "1979-05-27", "pulley.small.outside", "quotes"),
        ('"95 ± 0.5 mm"', '"0 mm"', "pulley.small.outside", "more than 0"),
        ('"95 ± 0.5 mm"', '"-95 mm"', "pulley.small.outside", "more than 0"),
        ('"95 ± 0.5 mm"', '"95 ± 96 mm"', "pulley.small.outside", "tolerance that reaches 0"),
        ('"95 ± 0.5 mm"', '"nan mm"', "pulley.small.outside", "no number"),
        ('"610 mm"', '"610 s"', "machine.driver.hip.2", "a unit for a time"),
        ('"82 kg"', '"82 mm"', "machine.driver.mass", "a unit for a length"),
        ('length_is = "inside"', 'length_is = "insid"', "belt.traction belt.length_is", "inside"),
        ('"large",\n]', '"lagre",\n]', "belt.traction belt.run.1", "large"),
        ('shaft = "input"', 'shaft = "imput"', "pulley.large.shaft", '"engine", "input"'),
        ('"19 EUR"', '"19 USD"', "part.belt.price", "Convert"),
        ('section = "A"', 'section = "Z"', "belt.traction belt.section", '"A", "B", "C"'),
        ('groove = "A"', 'groove = "5V"', "pulley.small.groove", "Known as a belt section"),
        ("[machine]", '[machine]\nground = ["mud", "gravl"]', "machine.ground.1", '"gravel"'),
        ('name = "input"', 'name = "engine"', "shaft.1.name", "already"),
        ("format = 1", "format = 2", "format", "Write 1"),
        ('budget = "160 EUR"', 'bugdet = "160 EUR"', "goals.bugdet", '"budget"'),
        ('budget = "160 EUR"', "xylophone = 1", "goals.xylophone", "Known are: top_speed"),
        ('name = "Trial"', 'name = ""', "name", "empty"),
        ('wheelbase = "1235 ± 5 mm"', "wheelbase = {}", "machine.wheelbase", "quotes"),
    ],
)
def test_a_bad_value_is_told_at_its_line(old: str, new: str, key: str, reason: str) -> None:
    text = SMALL.replace(old, new)
    told = next(problem for problem in problems(text) if problem.key == key)
    assert told.line == first_change(text)
    assert reason in str(told)
    assert told.file == "trial.toml"


def test_a_missing_value_is_told_at_its_table() -> None:
    text = SMALL.replace('section = "A"\n', "")
    (told,) = problems(text)
    assert (told.key, told.line) == ("belt.traction belt.section", line_with(text, "[[belt]]"))
    assert told.expected == "a text in quotes (as printed on the belt: A, B, 4L, 5L, ...)"


def test_a_missing_value_comes_with_an_example_from_the_model() -> None:
    (told,) = problems(SMALL.replace('outside = "204 mm"\ngroove = "A"\n', 'outside = "204 mm"\n'))
    assert told.example == 'groove = "A"'


def test_a_list_that_is_too_short_is_told_where_it_begins() -> None:
    text = SMALL.replace('at = ["900 mm", "0 mm"]', 'at = ["900 mm"]')
    (told,) = problems(text)
    assert (told.key, told.line) == ("shaft.engine.at", line_with(text, 'at = ["900 mm"]'))


def test_several_problems_are_told_at_once_in_file_order() -> None:
    text = SMALL.replace('"1235 ± 5 mm"', '"1235"').replace('"95 ± 0.5 mm"', '"95 ± 0.5 kg"')
    keys = [problem.key for problem in problems(text.replace('"67 in"', '"67 hp"'))]
    assert keys == ["machine.wheelbase", "pulley.small.outside", "belt.traction belt.length"]


def test_a_misspelt_name_is_told_once() -> None:
    text = SMALL.replace('section = "A"', 'secton = "A"')
    assert [problem.key for problem in problems(text)] == ["belt.traction belt.secton"]


def test_examples_in_problems_are_good() -> None:
    (told,) = problems(SMALL.replace('"95 ± 0.5 mm"', "95"))
    assert read_text(SMALL.replace('"95 ± 0.5 mm"', told.example)).pulley[0].outside is not None


@pytest.mark.parametrize(
    ("text", "line", "reason"),
    [
        ("", None, "empty"),
        ("# nothing yet\n", None, "empty"),
        ("format = 1\nname =\n", 2, "stands no text"),
        ('format = 1\nname = "x\n', 2, "none at its end"),
        ("format = 1\nname = Trial\n", 2, "stands no text"),
        ("format = 1\n\nformat = 1\n", 3, "already has a value"),
        ("format = 1\nname: x\n", 2, '"=" is missing'),
        ("format = 1\n[[shaft]]\n[shaft]\n", 3, "already"),
        ("format = 1\n[goals\n", 2, "is missing"),
        ("format = 1\nat = [1 2]\n", 2, '"]" of a list'),
        ("format = 1\nat = { a = 1 b = 2 }\n", 2, '"}" of a table'),
        ("format = 1\nat = [1,\n", 2, "breaks off"),
        ("[" * 5000, None, ""),
    ],
)
def test_bad_toml_is_told_at_its_line(text: str, line: int | None, reason: str) -> None:
    (told,) = problems(text)
    assert reason in str(told)
    assert line is None or told.line == line


@pytest.mark.parametrize("cut", range(20, len(SMALL.encode()), 41))
def test_a_file_that_breaks_off_is_refused_or_is_a_smaller_build(cut: int) -> None:
    reasons = refused_reasons(SMALL.encode()[:cut].decode(errors="ignore"))
    assert all(reasons)


@pytest.mark.parametrize(
    ("raw", "reason"),
    [
        (SMALL.encode("utf-16"), "UTF-16"),
        (SMALL.encode("latin-1"), "UTF-8"),
        (b"\x7fELF\0\0", "no text"),
        (b"x" * (1024 * 1024 + 1), "larger than 1 MiB"),
        (b"", "empty"),
    ],
)
def test_what_is_no_text_is_told(tmp_path: Path, raw: bytes, reason: str) -> None:
    path = tmp_path / "build.toml"
    path.write_bytes(raw)
    with pytest.raises(BuildError, match=reason):
        read_build(path)


def test_a_wrong_letter_is_told_at_its_line(tmp_path: Path) -> None:
    path = tmp_path / "build.toml"
    path.write_bytes(SMALL.encode("latin-1"))
    with pytest.raises(BuildError) as refused:
        read_build(path)
    assert refused.value.problems[0].line == line_with(SMALL, "±")


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_byte_order_mark_and_line_ends_do_not_matter(tmp_path: Path, ends: str, mark: str) -> None:
    path = tmp_path / "build.toml"
    path.write_bytes((mark + SMALL.replace("\n", ends)).encode())
    assert read_build(path).name == "Trial"


def test_a_folder_is_told(tmp_path: Path) -> None:
    with pytest.raises(BuildError, match="folder"):
        read_build(tmp_path)


def test_a_missing_file_is_told_with_one_of_a_similar_name(tmp_path: Path) -> None:
    (tmp_path / "hauler.toml").write_text(SMALL, encoding="utf-8")
    with pytest.raises(BuildError, match=r'Did you mean "hauler\.toml"'):
        read_build(tmp_path / "hualer.toml")


def test_a_device_is_told() -> None:
    with pytest.raises(BuildError, match="no ordinary file"):
        read_build("/dev/null")


def test_a_file_that_may_not_be_read_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "build.toml"
    path.write_text(SMALL, encoding="utf-8")

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(BuildError, match="may not be read"):
        read_build(path)


def test_names_with_dots_lead_to_their_table() -> None:
    text = SMALL.replace('name = "small"', 'name = "95.5 mm"').replace('"small",', '"95.5 mm",')
    (told,) = problems(text.replace('"95 ± 0.5 mm"', '"95 ± 0.5 s"'))
    assert told.key == "pulley.95.5 mm.outside"


@given(st.text(alphabet='abnt=[]{}",.#\n 0123456789', max_size=120))
def test_no_text_does_worse_than_a_refusal(text: str) -> None:
    with pytest.raises(BuildError) as refused:
        read_text(text)
    assert all(problem.reason for problem in refused.value.problems)


@given(st.data())
def test_a_file_with_a_letter_changed_is_refused_or_read(data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(SMALL) - 1))
    letter = data.draw(st.characters(codec="utf-8"))
    assert all(refused_reasons(SMALL[:at] + letter + SMALL[at + 1 :]))


@pytest.mark.parametrize(
    "name",
    ["", "  ", "a\\nb", "\\u001b[31mred", "\\u202eback", "x" * 61],
    ids=["empty", "blank", "two lines", "escape", "backwards", "long"],
)
def test_a_name_that_cannot_be_shown_is_refused(name: str) -> None:
    text = SMALL.replace('"small"', f'"{name}"')
    told = [problem for problem in problems(text) if problem.key.endswith(".name")]
    assert len(told) == 1
    assert "name" in told[0].reason or "60 letters at most" in told[0].reason


@pytest.mark.parametrize("name", ["0", "a.b", r"8\" wheel", "a/b", "🚜", "名前", "[bold]"])
def test_other_names_are_the_builders_own(name: str) -> None:
    assert refused_reasons(SMALL.replace('"small"', f'"{name}"')) == []


@pytest.mark.parametrize("place", ["900 km", "-21 m", "1e9 mm"])
def test_no_cart_is_that_large(place: str) -> None:
    (problem,) = problems(SMALL.replace('"900 mm"', f'"{place}"'))
    assert problem.key == "shaft.engine.at.0"
    assert "No cart is that large: 20 m" in problem.reason


def test_a_descent_is_longer_than_a_cart() -> None:
    text = SMALL.replace("[machine]", '[machine]\ndescent = "400 m"')
    assert read_text(text).machine.descent is not None


@pytest.mark.parametrize("ratio", ["0.0", "-12.1", "nan", "inf", "1e9"])
def test_a_gear_that_cannot_be_is_told_on_its_line(ratio: str) -> None:
    text = SMALL + f'\n[gearbox]\ninput = "input"\nforward = [\n  40.0,\n  {ratio},\n]\n'
    (problem,) = problems(text)
    assert problem.line == line_with(text, f"  {ratio},")
    assert problem.key == "gearbox.forward.1"


@pytest.mark.parametrize(
    ("more", "reason"),
    [
        ('[gearbox]\ninput = "input"\noutput = "input"\nforward = [9.0]', "cannot drive itself"),
        ('[gearbox]\ninput = "input"\noutput = "engine"\nforward = [9.0]', "by the engine already"),
        (
            '[gearbox]\ninput = "input"\nforward = [9.0]\n[[chain]]\nname = "c"\nsize = "40"\n'
            'driver = { shaft = "input", teeth = 9 }\ndriven = { shaft = "axle", teeth = 9 }',
            "by the gearbox already",
        ),
    ],
)
def test_a_driveline_that_locks_is_refused(more: str, reason: str) -> None:
    (problem,) = problems(f"{SMALL}\n{more}\n")
    assert reason in problem.reason


def test_an_obstacle_upside_down_is_refused() -> None:
    text = (
        SMALL + '\n[[obstacle]]\nname = "lever"\nfrom_height = "40 cm"\nto_height = "30 cm"\n'
        'outline = [["1 mm", "1 mm"], ["9 mm", "1 mm"], ["9 mm", "9 mm"]]\n'
    )
    (problem,) = problems(text)
    assert problem.line == line_with(text, "from_height")
    assert "lies above its top, 30 cm" in problem.reason


@pytest.mark.parametrize(
    "text", ["[a" + ".b" * 3000 + "]\n", "a = " + "{b = " * 40 + "1" + "}" * 40]
)
def test_deep_nesting_is_told(text: str) -> None:
    (problem,) = problems(text)
    assert "nested far too deep" in problem.reason


def test_a_problem_is_told_on_one_line_whatever_the_file_says() -> None:
    (problem,) = problems(SMALL.replace('"Trial"', '"a\\n\\u001b[31mb"'))
    assert problem.key == "name"
    assert str(problem).isprintable()


def test_a_word_that_is_a_number_in_quotes() -> None:
    (problem,) = problems(SMALL.replace("format = 1", 'format = "1"'))
    assert problem.reason == "Leave the quotes out."


def test_a_bare_number_that_is_none_gets_a_good_example() -> None:
    (problem,) = problems(SMALL.replace('"95 ± 0.5 mm"', "nan"))
    assert "nan" not in problem.example
