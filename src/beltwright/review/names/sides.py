"""Names of places: one for each way in which a place is measured."""

FROM_THE_AXLE = ("how far forward {} sits", "how far left {} sits", "how high {} sits")
"""From the rear axle, the middle and the ground."""

ON_A_SHAFT = ("how far forward {} sits", "how far left, or up, {} sits")
"""Of what stands on an upright shaft, or on one that lies across."""

SEEN_SQUARELY = ("how far right {} is", "how far up {} is")
"""On what is looked at squarely: a lever, a plate."""


def placed(key: str, thing: str, ways: tuple[str, ...]) -> dict[str, str]:
    """The names of the parts of a place, and of the place itself."""
    names = {f"{key}.{number}": way.format(thing) for number, way in enumerate(ways)}
    return {key: f"where {thing} {'is' if ways is SEEN_SQUARELY else 'sits'}", **names}
