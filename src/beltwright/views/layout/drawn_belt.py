"""From the path that the physics follows to the line that is drawn: the nominal build."""

import numpy as np

from beltwright.drawing.path import Arc, Path, Piece, Point, Straight, direction
from beltwright.physics.belt.loop import BeltPath
from beltwright.review.nominal import nominal


def pitch_line(path: BeltPath) -> Path:
    """The closed pitch line of a belt, beginning where it meets its first pulley."""
    pieces: list[Piece] = []
    for pulley in range(len(path.run)):
        pieces += [_bend(path, pulley), Straight(*span_ends(path, pulley))]
    return Path(tuple(pieces), closed=True)


def wheel_centre(path: BeltPath, pulley: int) -> Point:
    """Centre of a pulley of the run [m]."""
    return nominal(path.run.x[pulley]), nominal(path.run.y[pulley])


def span_ends(path: BeltPath, span: int) -> tuple[Point, Point]:
    """Both ends of the span that leaves a pulley [m], in the order of the run."""
    part = path.spans[span]
    return (
        (nominal(part.start_x), nominal(part.start_y)),
        (nominal(part.end_x), nominal(part.end_y)),
    )


def drawable(path: BeltPath) -> bool:
    """Whether every part of the nominal path exists."""
    return bool(np.isfinite(nominal(path.length)))


def _bend(path: BeltPath, pulley: int) -> Arc:
    """The arc on a pulley, from where the belt meets it."""
    centre = wheel_centre(path, pulley)
    _, meets = span_ends(path, pulley - 1)
    turn = path.run.side[pulley] * nominal(path.sense)
    return Arc(
        centre,
        nominal(path.run.radius[pulley]),
        direction(centre, meets),
        turn * nominal(path.wrap[pulley]),
    )
