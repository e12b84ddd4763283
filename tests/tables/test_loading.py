"""How a published table is read, and every way in which one is refused."""

from math import radians
from typing import NamedTuple

import pytest

from beltwright.tables.loading import Table, TableError, read_table


class Groove(NamedTuple):
    section: str
    width: float
    angle: float
    ribs: int = 1
    classical: bool = True
    note: str = ""
    source: str = ""
    status: str = ""


HEADING = """# source: A handbook,
# second edition
# edition: 2
# unit: inches, as printed
# status: seen in print
"""


def read(body: str, heading: str = HEADING) -> Table[Groove]:
    return read_table("grooves", heading + body, Groove)


def test_printed_units_become_si() -> None:
    row = read("section,width [in],angle [deg],ribs,classical\nA,0.5,34,3,no\n").rows[0]
    assert row.width == pytest.approx(0.0127, rel=1e-15)
    assert row.angle == radians(34.0)
    assert (row.ribs, row.classical) == (3, False)


def test_heading_is_kept_and_a_long_line_goes_on() -> None:
    table = read("section,width,angle\nA,1,2\n")
    assert table.source == "A handbook, second edition"
    assert (table.edition, table.unit) == ("2", "inches, as printed")
    assert table.status == "seen in print"


def test_a_row_takes_the_status_of_the_table_unless_it_has_its_own() -> None:
    table = read("section,width,angle,status\nA,1,2,\nB,1,2,from memory: high\n")
    assert [row.status for row in table] == ["seen in print", "from memory: high"]
    assert table.rows[0].source == "A handbook, second edition"


def test_rows_are_found_by_name() -> None:
    table = read("section,width,angle\nA,1,2\nB,3,4\n")
    assert table.named("B").width == 3.0
    assert len(table) == 2
    with pytest.raises(KeyError, match="known are A, B"):
        table.named("Z")


def test_celsius_becomes_kelvin() -> None:
    assert read("section,width [°C],angle\nA,40,2\n").rows[0].width == 313.15


@pytest.mark.parametrize(
    ("body", "heading", "reason"),
    [
        ("section,width,angle\nA,1,2\n", "# status: exact\n", "needs a line '# source"),
        ("section,width,angle\nA,1,2\n", "# source: x\n# status: sure\n", "must begin with"),
        ("section,width,angle,status\nA,1,2,sure\n", HEADING, "line 7: status 'sure'"),
        ("section,width,angle\nA,1\n", HEADING, "line 7: 2 cells under 3"),
        ("section,width,angle\nA,wide,2\n", HEADING, "line 7: width: 'wide'"),
        ("section,width,angle\nA,,2\n", HEADING, "line 7: width: ''"),
        ("section,width,angle,classical\nA,1,2,maybe\n", HEADING, "classical: 'maybe'"),
        ("section,width [furlong],angle\nA,1,2\n", HEADING, "unit 'furlong'"),
        ("section,width,angle,depth\nA,1,2,3\n", HEADING, "no field 'depth'"),
        ("section,width\nA,1\n", HEADING, "no column for 'angle'"),
        ("section,width,angle\n", HEADING, "no rows"),
        ("", HEADING, "no row of column names"),
    ],
)
def test_a_table_that_cannot_be_used_is_refused(body: str, heading: str, reason: str) -> None:
    with pytest.raises(TableError, match=reason.replace("[", r"\[")):
        read(body, heading)
