"""To get and to make: what still has to come from donors, the bin, the shop and the bench."""

from __future__ import annotations

from collections.abc import Iterator

from beltwright.build.shop import Part
from beltwright.drawing.ink import Page
from beltwright.drawing.sheet import A4, Paper
from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.money.sums import MAKE, SHOP, cost_of, money, parts_without_entry
from beltwright.review.nominal import nominal
from beltwright.review.review import Review
from beltwright.sheets.flow import SMALL, Block, Cell, heading, paragraph, row, rule, space
from beltwright.sheets.paper_sheet import text_frame, text_sheets
from beltwright.sheets.steps import cautions
from beltwright.sheets.tick_box import BLANK, BOX_ROOM, ticked
from beltwright.views.part_words import named_words, part_words

TITLE = "To get and to make"
PURPOSE = (
    "Every part of the machine with what to ask for at the counter. A crossed box lies on the "
    "bench already. Tick the others as they come, and write what they cost."
)
TOOLS = (
    "To take along: this sheet, a caliper, a tape, the old belt and pulley, the shaft's key in a "
    "bag."
)
AT_THE_COUNTER = (
    "Belts: compare the printed size and the width at the top, not the shape alone. A light-duty "
    "belt and a classical one of the same width are measured and rated differently.",
    "Pulleys: try the bore on the shaft or close the caliper on both, and lay the belt in the "
    "groove: it stands level with the rim and does not touch the bottom.",
    "Bolts, keys and springs: take the grade on the head, not what looks like it. A spring that "
    "was stretched once is not the same spring.",
)
CAUTIONS = (
    "A used pulley with a crack, a used belt with a frayed side or a wheel with a bent rim is no "
    "bargain: at speed it can fly. Leave it.",
    "Where a sheet of this plan still says stop, buy nothing for it yet.",
)

BIN, OTHER = "bin", "not said"
_SHARES = (0.30, 0.44, 0.12, 0.14)  # name, what identifies it, price, paid


def shopping_pages(case: Case, review: Review, made_on: str, paper: Paper = A4) -> list[Page]:
    """The list of parts by where they come from, what nothing on it covers, and the money."""
    width = text_frame(paper).width
    blocks = [
        heading(TITLE),
        paragraph(PURPOSE, width),
        space(1.0),
        paragraph(TOOLS, width),
        *_groups(case, width),
        *_open_lines(case, width),
        *_sums(case, review, width),
        heading("At the counter"),
        *(paragraph(each, width) for each in AT_THE_COUNTER),
        *cautions(CAUTIONS, width),
    ]
    return text_sheets(review, TITLE, made_on, blocks, paper)


def place_of(part: Part) -> str:
    """Where a part comes from: a donor by its name, the bin, the shop, or the bench."""
    if part.source is None:
        return BIN if part.have else OTHER
    return part.source


def _titled(place: str) -> str:
    """The heading of what comes from one place."""
    if place in (SHOP, MAKE, BIN, OTHER):
        return {
            SHOP: "From the shop",
            MAKE: "To make",
            BIN: "From the bin",
            OTHER: "Nobody has said where from",
        }[place]
    donor, _, name = place.partition(":")
    return f"From the {donor.strip()}{f', {name.strip()}' if name else ''}"


def _order(place: str) -> int:
    """Donors and the bin before the shop: what is there need not be bought."""
    return {BIN: 1, SHOP: 2, MAKE: 3, OTHER: 4}.get(place, 0)


def _groups(case: Case, width: float) -> Iterator[Block]:
    places = sorted(dict.fromkeys(place_of(part) for part in case.build.part), key=_order)
    for place in places:
        yield heading(_titled(place))
        yield rule(width)
        for part in case.build.part:
            if place_of(part) == place:
                yield ticked(_cells(case, part, width - BOX_ROOM), part.have)


def _cells(case: Case, part: Part, width: float) -> list[Cell]:
    count = f"{part.quantity} × " if part.quantity > 1 else ""
    use = f" (for the {part.use})" if part.use and part.use not in part.name else ""
    return [
        Cell(f"{count}{part.name}{use}", _SHARES[0] * width, bold=True),
        Cell(part_words(case, part), _SHARES[1] * width),
        Cell(_price(case, part), _SHARES[2] * width, right=True),
        Cell("" if part.have else BLANK, _SHARES[3] * width, right=True),
    ]


def _price(case: Case, part: Part) -> str:
    """What the entry costs, all of its pieces together."""
    if part.price is None:
        return "no price yet"
    return case.units.show(nominal(cost_of(case, part)), Kind.MONEY)


def _open_lines(case: Case, width: float) -> Iterator[Block]:
    """What the build needs and no entry covers."""
    missing = parts_without_entry(case)
    if not missing:
        return
    yield heading("On no list yet")
    yield paragraph(
        "The build needs these too. Find out where each comes from, and add a [[part]] with its "
        "name as use.",
        width,
        with_next=True,
    )
    room = width - BOX_ROOM
    for name in missing:
        yield ticked(
            [
                Cell(name, _SHARES[0] * room, bold=True),
                Cell(named_words(case, name), _SHARES[1] * room),
                Cell("no price yet", _SHARES[2] * room, right=True),
                Cell(BLANK, _SHARES[3] * room, right=True),
            ]
        )


def _sums(case: Case, review: Review, width: float) -> Iterator[Block]:
    """The sums of the review, and what they leave open."""
    sums, budget = money(case), case.build.goals.budget
    yield heading("Money")
    yield rule(width)
    lines = [
        ("Paid for what lies on the bench", sums.spent),
        ("Still to buy", sums.to_buy),
        ("For what is made", sums.to_make),
        ("Together", sums.total),
    ]
    for title, amount in lines:
        shown = case.units.show(nominal(amount), Kind.MONEY)
        yield row([Cell(title, 0.7 * width, bold=title == "Together"), Cell(shown, 0.3 * width)])
    if budget is not None:
        yield row([Cell("Budget", 0.7 * width), Cell(budget.text, 0.3 * width)])
    total = review.finding("money.total")
    if total is not None:
        yield paragraph(total.meaning, width)
    yield from _without_price(case, width)


def _without_price(case: Case, width: float) -> Iterator[Block]:
    names = [*(part.name for part in money(case).unpriced), *parts_without_entry(case)]
    if names:
        text = f"No price yet, so the sum will grow: {', '.join(names)}."
        yield paragraph(text, width, bold=True)
    yield paragraph("Not counted: tools, fuel, oil, paint, postage.", width, height=SMALL)
