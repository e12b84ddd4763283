"""Angles in words, as they are read off a level."""

import numpy as np

DEGREES = "°"


def degrees(angle: float) -> str:
    """An angle [rad], for example "12.5°"."""
    return f"{np.degrees(angle):.1f}".removesuffix(".0") + DEGREES
