"""What a goal written as one bare value means, by what it is a goal for."""

from dataclasses import replace

from beltwright.quantity import Goal, Kind, read_goal

NEAR_ENOUGH = 0.05
"""A single speed is met by one that is this share of it away."""


def about(text: str, kind: Kind) -> Goal:
    """Read a goal; a single value is met by what comes near it on either side."""
    goal = read_goal(text, kind)
    if goal.low is None or goal.low != goal.high:
        return goal
    return replace(goal, low=goal.low * (1 - NEAR_ENOUGH), high=goal.low * (1 + NEAR_ENOUGH))


def at_most(text: str, kind: Kind) -> Goal:
    """Read a goal; a single value is the most that is wanted."""
    goal = read_goal(text, kind)
    return replace(goal, low=None) if goal.low == goal.high else goal


def at_least(text: str, kind: Kind) -> Goal:
    """Read a goal; a single value is the least that is wanted."""
    goal = read_goal(text, kind)
    return replace(goal, high=None) if goal.low == goal.high else goal
