"""Names that builders write, and what the tables of oils, threads, seals and shafts answer."""

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beltwright.tables.chains import chain_size
from beltwright.tables.drills import drills, nearest_drill
from beltwright.tables.oils import GreaseError, oil, oil_grade_limits, oils
from beltwright.tables.pipe_threads import is_pipe_thread, pipe_thread, pipe_threads
from beltwright.tables.seals import seal_material, seal_speeds
from beltwright.tables.shaft_fastenings import key_sizes, set_screw, standard_key
from beltwright.tables.thread_strengths import bolt_grade, bolt_grades, thread_material
from beltwright.tables.threads import thread, threads


@pytest.mark.parametrize(
    ("written", "grade"),
    [
        ("SAE 90", "SAE 90"),
        ("80W90", "SAE 80W-90"),
        ("sae 80w-90", "SAE 80W-90"),
        ("ISO VG 220", "ISO VG 220"),
        ("VG220", "ISO VG 220"),
        ("10W30", "SAE 10W-30"),
        ("EP 90", "SAE 90"),
    ],
)
def test_oils_by_the_can(written: str, grade: str) -> None:
    assert oil(written).grade == grade


@pytest.mark.parametrize("written", ["NLGI 0", "00 grease", "NLGI 00"])
def test_grease_is_told_apart(written: str) -> None:
    with pytest.raises(GreaseError, match="grease"):
        oil(written)


def test_an_unknown_oil_lists_the_known() -> None:
    with pytest.raises(KeyError, match="ISO VG 220"):
        oil("olive")


def test_oils_and_limits_stand_in_order() -> None:
    assert len({row.grade for row in oils()}) == len(oils())
    for row in oil_grade_limits():
        assert row.low < row.high


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("M10", "M10x1.5"),
        ("m10 x 1.25", "M10x1.25"),
        ("M10×1.0", "M10x1"),
        ("3/8-16 UNC", "3/8-16"),
        ("3/8-16", "3/8-16"),
        ("5/16 UNF", "5/16-24"),
        ('1/4"-20 UNC', "1/4-20"),
        ("#10-24", "#10-24"),
        ("No. 10-32", "#10-32"),
        ("1 UNC", "1-8"),
    ],
)
def test_threads_as_builders_write_them(written: str, name: str) -> None:
    assert thread(written).name == name


@pytest.mark.parametrize("written", ["M9", "3/8", "1/2 NPT", "", "M10x7"])
def test_unknown_threads_list_the_known(written: str) -> None:
    with pytest.raises(KeyError, match="3/8-16"):
        thread(written)


def test_fine_threads_are_finer() -> None:
    by_size: dict[tuple[float, bool], dict[str, float]] = {}
    for each in threads():
        by_size.setdefault((each.major, each.metric), {})[each.series] = each.pitch
    for pitches in by_size.values():
        if "UNF" in pitches and "UNC" in pitches:
            assert pitches["UNF"] < pitches["UNC"]
        if "fine" in pitches:
            assert pitches["fine"] < pitches["coarse"]


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("1/8 NPT", "1/8 NPT"),
        ("1/8-27 NPT", "1/8 NPT"),
        ('1/4" NPT', "1/4 NPT"),
        ("R 1/4", "1/4 R"),
        ("1/2 BSPT", "1/2 R"),
        ("1 NPT", "1 NPT"),
    ],
)
def test_pipe_threads_as_builders_write_them(written: str, name: str) -> None:
    assert is_pipe_thread(written)
    assert pipe_thread(written).name == name


def test_straight_threads_are_no_pipe_threads() -> None:
    assert not is_pipe_thread("M10")
    assert not is_pipe_thread("3/8-16 UNC")
    with pytest.raises(KeyError, match="1/8 NPT"):
        pipe_thread("M10")


def test_pipe_threads_grow() -> None:
    for standard in ("NPT", "R"):
        sizes = [each for each in pipe_threads() if each.standard == standard]
        assert all(a.diameter < b.diameter for a, b in itertools.pairwise(sizes))


def test_drills_run_from_thin_to_thick() -> None:
    sizes = [drill.diameter for drill in drills()]
    assert sizes == sorted(sizes)
    assert nearest_drill(8.54e-3, metric=True).name == "8.5 mm"
    assert nearest_drill(0.3125 * 0.0254, metric=False).name == "5/16 in"


@given(st.floats(1e-4, 0.04), st.booleans())
def test_no_drill_lies_nearer(diameter: float, metric: bool) -> None:
    nearest = abs(nearest_drill(diameter, metric).diameter - diameter)
    assert all(
        abs(drill.diameter - diameter) >= nearest for drill in drills() if drill.metric == metric
    )


def test_seals() -> None:
    assert seal_material("nitrile").hottest == pytest.approx(373.15)
    assert all(row.cautious_pressure <= row.pressure for row in seal_speeds())


def test_keys_join_up_and_stop() -> None:
    for metric in (True, False):
        sizes = [size for size in key_sizes() if size.metric == metric]
        for a, b in itertools.pairwise(sizes):
            assert a.up_to == pytest.approx(b.over)
            assert a.width < b.width
    with pytest.raises(KeyError, match="no standard key"):
        standard_key(0.2, metric=True)


@pytest.mark.parametrize(
    ("written", "size"),
    [("M8", "M8"), ("m8 x 1.25", "M8"), ("5/16-18 UNC", "5/16"), ("1/4", "1/4")],
)
def test_set_screws_by_thread(written: str, size: str) -> None:
    assert set_screw(written).size == size


def test_metric_set_screws_hold_no_more_than_the_larger_inch_size() -> None:
    assert set_screw("M8").holding_force <= set_screw("5/16").holding_force
    assert set_screw("M6").holding_force < set_screw("1/4").holding_force


@pytest.mark.parametrize(
    ("written", "size"),
    [("08B", "08B"), ("08b-1", "08B"), ("#40", "40"), ("08A", "40"), ("35", "35")],
)
def test_chain_by_number(written: str, size: str) -> None:
    assert chain_size(written).size == size


def test_unknown_chain_lists_the_known() -> None:
    with pytest.raises(KeyError, match="08B"):
        chain_size("428")


def test_strengths() -> None:
    assert thread_material("steel").shear > thread_material("aluminium").shear
    assert bolt_grade("8.8").proof == pytest.approx(580e6)
    assert all(row.proof < row.tensile for row in bolt_grades())
