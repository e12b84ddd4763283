"""What the review says about money: the total against the budget, the shopping, what is missing."""

from collections.abc import Iterable, Iterator
from functools import partial

from beltwright.build.shop import Part
from beltwright.quantity import Kind
from beltwright.review.case import Case, NotKnownError
from beltwright.review.draft import Ask, Draft
from beltwright.review.finding import Verdict
from beltwright.review.money.sums import MAKE, cost_of, money, parts_without_entry
from beltwright.review.nominal import nominal

LIST_PARTS = (
    'List every part under its own [[part]] with its price, for example price = "24 EUR", and '
    "have = true once it lies on the bench."
)
SOURCE = "the builder's own list of parts"


def questions(case: Case) -> Iterator[Ask]:
    """The questions about money."""
    yield Ask("money.total", "Cost of the whole machine", partial(_total, case))
    if case.build.part:
        yield Ask("money.to_buy", "Still to be paid", partial(_to_buy, case))
        yield Ask("money.missing", "Parts without an entry", partial(_missing, case))


def _total(case: Case) -> Draft:
    if not case.build.part:
        raise NotKnownError("part", LIST_PARTS)
    sums = money(case)
    total, budget = nominal(sums.total), case.build.goals.budget
    most = None if budget is None else budget.high
    over = most is not None and total > most
    show = partial(case.units.show, kind=Kind.MONEY)
    parts = {"spent": sums.spent, "to buy": sums.to_buy, "to make": sums.to_make}
    named = [f"{show(nominal(amount))} {name}" for name, amount in parts.items()]
    return Draft(
        kind=Kind.MONEY,
        value=sums.total,
        at_most=most,
        near=0.0,
        worst=Verdict.MARGINAL,
        verdict=_verdict(most, over, bool(sums.unpriced)),
        meaning=f"{_against(case, total, most)}{_unpriced(sums.unpriced)}",
        remedy=_total_remedy(case, sums.unpriced, total, most),
        formula="total = spent + to buy + to make",
        working=f"{' + '.join(named)} = {show(total)}",
        source=SOURCE,
        leaves_out="tools, fuel, oil, paint, postage, and the time in the shop",
    )


def _verdict(most: float | None, over: bool, unpriced: bool) -> Verdict | None:
    """An unpriced part leaves the total open, unless it is over the budget already."""
    if unpriced and not over:
        return Verdict.NOT_KNOWN
    return Verdict.SOUND if most is None else None


def _against(case: Case, total: float, most: float | None) -> str:
    show = partial(case.units.show, kind=Kind.MONEY)
    if most is None:
        return "No budget is set."
    if total > most:
        return f"{show(total - most)} over the budget of {show(most)}."
    return f"{show(most - total)} of the budget of {show(most)} are left."


def _unpriced(parts: Iterable[Part]) -> str:
    names = ", ".join(part.name for part in parts)
    return f" Without a price so far: {names}." if names else ""


def _total_remedy(case: Case, unpriced: tuple[Part, ...], total: float, most: float | None) -> str:
    if unpriced:
        return (
            f'Ask for the price of {unpriced[0].name} and write it, for example price = "24 EUR".'
        )
    if most is None or total <= most:
        return ""
    dearest = max(case.build.part, key=lambda part: nominal(cost_of(case, part)))
    price = case.units.show(nominal(cost_of(case, dearest)), Kind.MONEY)
    return f"Look for {dearest.name} ({price}) on a donor first: it is the dearest."


def _to_buy(case: Case) -> Draft:
    waiting = [part for part in case.build.part if not part.have and part.price is not None]
    owed = money(case).to_buy + money(case).to_make
    show = partial(case.units.show, kind=Kind.MONEY)
    bill = [f"{part.name} {show(nominal(cost_of(case, part)))}" for part in waiting]
    stock = [part.name for part in waiting if part.source == MAKE]
    return Draft(
        kind=Kind.MONEY,
        value=owed,
        verdict=Verdict.SOUND,
        meaning=f"{'; '.join(bill)}." if bill else "Everything with a price lies on the bench.",
        formula="still to be paid = price × number of every part that is not there yet",
        working=f"{' + '.join(bill) or 'nothing'} = {show(nominal(owed))}",
        source=SOURCE,
        leaves_out=f"the time to make {', '.join(stock)}" if stock else "",
    )


def _missing(case: Case) -> Draft:
    names = parts_without_entry(case)
    listed = ", ".join(names)
    return Draft(
        verdict=Verdict.NOT_KNOWN if names else Verdict.SOUND,
        says=f"{len(names)} missing" if names else "none",
        meaning=f"Nobody has said where these come from or what they cost: {listed}."
        if names
        else "Every pulley, idler, spring, belt, chain and plate has an entry.",
        remedy=f'Add a [[part]] with use = "{names[0]}".' if names else "",
        formula="every pulley, idler, spring, belt, chain and plate is named by the use of a part",
        working=listed or "all are named",
        source=SOURCE,
    )
