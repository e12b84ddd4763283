"""What a build costs against its budget, in one line."""

from beltwright.review.review import Review


def money_line(review: Review) -> str:
    """What is spent of the budget, as far as either is known."""
    total = review.finding("money.total")
    budget = review.build.goals.budget
    if total is None or total.value is None:
        return "not known"
    return f"{total.shown} of {budget.text}" if budget else total.shown
