"""What stands beside every finding about tipping: the cautions, and where the weight sits."""

from beltwright.review.case import Case
from beltwright.review.nominal import nominal
from beltwright.review.stability.centre_of_gravity import laden

TIPPING_CAUTION = (
    "A machine that tips can crush its driver. Go straight up and down, never across, and not at "
    "all where it is wet, rough or soft. Local rules and a roll bar's maker go first."
)
TURN_CAUTION = (
    "Slow down before the turn, not in it. A rut, a root or a load that shifts tips it sooner."
)


def weight_place(case: Case) -> tuple[float, float, float]:
    """Where the weight of the laden machine sits, for the drawing [m]."""
    balance = laden(case).balance
    return (nominal(balance.x), nominal(balance.y), nominal(balance.z))
