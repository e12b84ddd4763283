"""What the review says about a cause: what it would have to be, how likely, which line says so."""

from collections.abc import Sequence
from typing import Any

from beltwright.quantity import Kind
from beltwright.review.case import Case
from beltwright.review.driveline.routes import gears
from beltwright.review.finding import Explained
from beltwright.review.proving.causes import Cause
from beltwright.review.proving.comparing import Comparison
from beltwright.review.proving.conditions import ratio_key
from beltwright.review.proving.fitting import Explanation
from beltwright.review.proving.written import key_of, line_of, quantity_at
from beltwright.review.road_words import SLOPE_UNIT

HAPPENS = 2.5
"""Times its tolerance by which an input is off now and then; more is far off (assumed)."""

WORTH_WRITING = 0.05
"""Slip above which a belt is to be tightened, and not planned with [1] (assumed)."""

OF_HEAT = ("gearbox.churning", "gearbox.free_area", "gearbox.air_reached")

Line = tuple[str, str, Any]
"""A line of the build file, and what the page sends to write it: key and value."""

NO_LINE: Line = ("", "", "")


def explained(
    case: Case, compared: Comparison, found: Explanation, others: Sequence[Comparison]
) -> Explained:
    """One cause in words."""
    if found.cause is None:
        drive = compared.reading.drive
        key = f"drive.{drive.name}.gear"
        return Explained(
            what="another gear was driven",
            needed=f"gear {found.gear}, and not {drive.gear}",
            likely=_likely(found, others),
            check="Count the lever's places again, or turns on blocks",
            line=f'[[drive]] {drive.name}: gear = "{found.gear}"',
            key=key,
            value=found.gear,
        )
    cause = found.cause
    line, key, value = _line(case, compared, cause, found)
    return Explained(
        what=cause.words,
        needed=_needed(case, cause, found),
        likely=_likely(found, others),
        check=cause.check,
        line=line,
        key=key,
        value=value,
    )


def _needed(case: Case, cause: Cause, found: Explanation) -> str:
    unit = SLOPE_UNIT if cause.kind is Kind.ANGLE else ""
    show = case.units.show
    if cause.kind is Kind.RATIO and not cause.key.endswith(_SHARES):
        return f"{found.value:.3g} ± {found.doubt:.2g} instead of {cause.nominal:.3g}"
    if cause.kind is Kind.RATIO:
        return f"{found.value:.1%} ± {found.doubt:.1%} instead of {cause.nominal:.1%}".replace(
            "%", " %"
        )
    least, most = found.value - found.doubt, found.value + found.doubt
    between = case.units.show_range(least, most, cause.kind, unit)
    return (
        f"{show(found.value, cause.kind, unit)} ({between}) instead of "
        f"{show(cause.nominal, cause.kind, unit)}"
    )


_SHARES = ("slip", "efficiency", "duty")


def _likely(found: Explanation, others: Sequence[Comparison]) -> str:
    if found.strain <= 1.0:
        words = "within what is known of it"
    elif found.strain <= HAPPENS:
        words = "farther off than expected, but it happens"
    else:
        words = "far from what is known of it"
    if len(found.explains) > 1:
        words += f"; explains {len(found.explains)} readings at once"
    if found.spoils:
        names = ", ".join(
            f"{others[at].reading.words} of {others[at].reading.drive.name}" for at in found.spoils
        )
        words += f"; but then {names} would no longer agree"
    return words


def _line(case: Case, compared: Comparison, cause: Cause, found: Explanation) -> Line:
    """The line with which the plan agrees."""
    if cause.key in OF_HEAT:
        return _measured_run(compared)
    if not cause.place:
        return _ratios(case, cause, found)
    if cause.place[0] == "drive" or (cause.place[-1] == "slip" and found.value > WORTH_WRITING):
        return NO_LINE
    doubt = found.doubt if cause.kind is Kind.ANGLE else min(found.doubt, 0.9 * found.value)
    text = quantity_at(case, cause.place, cause.kind, found.value, doubt).text
    line = line_of(cause.place, text)
    if cause.place[0] == "ground":
        name, what = cause.place[1:]
        if all(row.name != name for row in case.build.ground):
            return line, "ground", {"name": name, what: text}
    return line, key_of(cause.place), text


def _ratios(case: Case, cause: Cause, found: Explanation) -> Line:
    """The list of ratios with the one that was found."""
    named = [gear for gear in gears(case) if ratio_key(gear) == cause.key]
    if not named:
        return NO_LINE
    way = "forward" if named[0].forward else "reverse"
    listed = [
        float(f"{found.value:.4g}") if gear is named[0] else gear.ratio
        for gear in gears(case)
        if gear.forward == named[0].forward
    ]
    return f"[gearbox] {way} = {listed}", f"gearbox.{way}", listed


def _measured_run(compared: Comparison) -> Line:
    """The reading as a measured warm-up, which stands in for all guesses about the heat."""
    drive = compared.reading.drive
    if drive.air is None or drive.case is None or drive.after is None or drive.duty is None:
        return NO_LINE
    if drive.gear is None or drive.gear.startswith("reverse"):
        return NO_LINE
    run = {
        "air": drive.air.text,
        "gear": int(drive.gear),
        "duty": drive.duty.text,
        "reading": [{"after": drive.after.text, "oil": drive.case.text}],
    }
    line = (
        f'[gearbox.measured] air = "{run["air"]}", gear = {run["gear"]}, duty = "{run["duty"]}", '
        f'reading = [{{ after = "{drive.after.text}", oil = "{drive.case.text}" }}]'
    )
    return line, "gearbox.measured", run
