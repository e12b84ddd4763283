"""The same arithmetic as one compiled loop: the limit that the array version is measured against.

One candidate after the other: path round four pulleys, arm angle for the belt's length by Newton
steps with the exact derivative inside a bracket, wraps, slack, gap to each four-cornered part,
ratio, speed, overspeed, cost.  Needs numba, which is no dependency of the project: install it in
an environment of its own, and the benchmark uses it when it is there.
"""

import math

import numpy as np
from numba import njit
from numpy.typing import NDArray

Array = NDArray[np.float64]

FULL_TURN = 2.0 * math.pi
STEPS = 40
CLOSE = 1e-12


@njit(cache=False)  # type: ignore[untyped-decorator]
def tangent(x: Array, y: Array, signed: Array, first: int, second: int, span: Array) -> float:
    """The span from one pulley to the next: length, heading, start; gives the length."""
    dx, dy = x[second] - x[first], y[second] - y[first]
    rise = signed[second] - signed[first]
    square = dx * dx + dy * dy
    rest = square - rise * rise
    if rest <= 0.0:
        return math.nan
    length = math.sqrt(rest)
    ux = (length * dx + rise * dy) / square
    uy = (length * dy - rise * dx) / square
    span[0], span[1], span[2] = length, ux, uy
    span[3], span[4] = x[first] + signed[first] * uy, y[first] - signed[first] * ux
    return length


@njit(cache=False)  # type: ignore[untyped-decorator]
def wrap_between(turning: float, meets: Array, leaves: Array) -> float:
    """The wrap between two headings, negative where the belt misses the pulley."""
    cross = meets[1] * leaves[2] - meets[2] * leaves[1]
    dot = meets[1] * leaves[1] + meets[2] * leaves[2]
    wrap = math.atan2(turning * cross, dot)
    return wrap + FULL_TURN if wrap < -0.5 * math.pi else wrap


@njit(cache=False)  # type: ignore[untyped-decorator]
def path(
    x: Array,
    y: Array,
    radius: Array,
    side: Array,
    count: int,
    signed: Array,
    spans: Array,
    wraps: Array,
) -> float:
    """The length of the path round the first `count` pulleys; fills spans and wraps."""
    total = 0.0
    for n in range(count):
        signed[n] = side[n] * radius[n]
    for n in range(count):
        total += tangent(x, y, signed, n, (n + 1) % count, spans[n])
    for n in range(count):
        wraps[n] = wrap_between(side[n], spans[(n + count - 1) % count], spans[n])
        total += radius[n] * wraps[n]
    return total


@njit(cache=False)  # type: ignore[untyped-decorator]
def beside_spans(spans: Array, shift: float, corners: Array) -> float:
    """Smallest squared distance of a part's corners from the straight parts of the belt."""
    points = corners.shape[0]
    best = math.inf
    inside = False
    for n in range(spans.shape[0]):
        length, ux, uy = spans[n, 0], spans[n, 1], spans[n, 2]
        sx, sy = spans[n, 3] + shift * uy, spans[n, 4] - shift * ux
        for c in range(points):
            dx, dy = corners[c, 0] - sx, corners[c, 1] - sy
            ex, ey = corners[(c + 1) % points, 0] - sx, corners[(c + 1) % points, 1] - sy
            along, across = dx * ux + dy * uy, dy * ux - dx * uy
            beyond = along - min(max(along, 0.0), length)
            best = min(best, across * across + beyond * beyond)
            next_across = ey * ux - ex * uy
            if across * next_across < 0.0:
                share = across / (across - next_across)
                place = along + share * (ex * ux + ey * uy - along)
                best = 0.0 if 0.0 <= place <= length else best
            if n == 0 and (dy > 0.0) != (ey > 0.0):
                level = dx * (ey - dy) - dy * (ex - dx)
                inside = inside != ((level > 0.0) == (ey > dy))
    return 0.0 if inside else best


@njit(cache=False)  # type: ignore[untyped-decorator]
def beside_arc(
    x: float, y: float, radius: float, toward: tuple[float, float], edge: float, corners: Array
) -> float:
    """Smallest squared distance of a part's corners and sides from one arc of the belt."""
    points = corners.shape[0]
    best = math.inf
    for c in range(points):
        dx, dy = corners[c, 0] - x, corners[c, 1] - y
        ex = corners[(c + 1) % points, 0] - corners[c, 0]
        ey = corners[(c + 1) % points, 1] - corners[c, 1]
        away = math.sqrt(dx * dx + dy * dy)
        if toward[0] * dx + toward[1] * dy >= away * edge:
            best = min(best, (away - radius) ** 2)
        share = min(max(-(dx * ex + dy * ey) / (ex * ex + ey * ey), 0.0), 1.0)
        fx, fy = dx + share * ex, dy + share * ey
        near = math.sqrt(fx * fx + fy * fy)
        if near >= radius and toward[0] * fx + toward[1] * fy >= near * edge:
            best = min(best, (near - radius) ** 2)
    return best


@njit(cache=False)  # type: ignore[untyped-decorator]
def gap(
    x: Array,
    y: Array,
    radius: Array,
    side: Array,
    spans: Array,
    wraps: Array,
    band: tuple[float, float],
    corners: Array,
) -> float:
    """Nearest gap of the belt's band to one part.

    band: how far its middle lies outside the pitch line, and half its width.
    """
    shift, half = band
    best = beside_spans(spans, shift, corners)
    for n in range(4):
        to_x = side[n] * (spans[n - 1, 2] + spans[n, 2])
        to_y = -side[n] * (spans[n - 1, 1] + spans[n, 1])
        size = math.sqrt(to_x * to_x + to_y * to_y)
        toward = (to_x / size, to_y / size)
        bend, edge = radius[n] + side[n] * shift, math.cos(0.5 * wraps[n])
        best = min(best, beside_arc(x[n], y[n], bend, toward, edge, corners))
    return math.sqrt(best) - half


@njit(cache=False)  # type: ignore[untyped-decorator]
def evaluate(fixed: Array, candidates: Array, parts: Array, drive: Array, found: Array) -> None:
    """Fill a row for each candidate: fits, arm angle, slack, least wrap, nearest gap, speed,
    overspeed, cost.

    fixed       rows x, y, radius, side of engine pulley, clutch idler, input pulley, guide idler
    candidates  rows engine radius, input radius, guide y, pitch length, price
    parts       corners of each part
    drive       arm: pivot x, y, length, released, furthest; band: shift, half; sense; governed,
                gear, roll-out, stock
    """
    x, y, radius = fixed[0].copy(), fixed[1].copy(), fixed[2].copy()
    sense = drive[7]
    band = (drive[5] * sense, drive[6])
    side = fixed[3] * sense
    signed, spans, wraps = np.empty(4), np.empty((4, 5)), np.empty(4)
    three = np.array([0, 2, 3])
    for n in range(candidates.shape[0]):
        engine, input_, guide, belt, price = candidates[n]
        radius[0], radius[2], y[3] = engine, input_, guide
        length = path(x[three], y[three], radius[three], side[three], 3, signed, spans, wraps)
        x[1] = drive[0] + drive[2] * math.cos(drive[3])
        y[1] = drive[1] + drive[2] * math.sin(drive[3])
        loose = path(x, y, radius, side, 4, signed, spans, wraps)
        turned = abs(sense * np.sum(side * wraps) - FULL_TURN)
        slack = belt - (loose if wraps[1] > 0.0 and turned < 1e-6 else length)
        low, high = drive[3], drive[4]
        angle = high
        fits = False
        for _ in range(STEPS):
            x[1] = drive[0] + drive[2] * math.cos(angle)
            y[1] = drive[1] + drive[2] * math.sin(angle)
            over = path(x, y, radius, side, 4, signed, spans, wraps) - belt
            gx, gy = spans[0, 1] - spans[1, 1], spans[0, 2] - spans[1, 2]
            rate = drive[2] * (gy * math.cos(angle) - gx * math.sin(angle))
            if over < 0.0 or wraps[1] < 0.0:
                low = angle
            else:
                high = angle
            if abs(over) < CLOSE * belt and wraps[1] > 0.0:
                fits = True
                break
            step = angle - over / rate if rate != 0.0 else math.nan
            if not min(low, high) < step < max(low, high) or wraps[1] < 0.0:
                step = 0.5 * (low + high)
            if abs(step - angle) < 1e-15 or (angle == drive[4] and over < 0.0):
                break
            angle = step
        nearest = math.inf
        for part in range(parts.shape[0]):
            nearest = min(nearest, gap(x, y, radius, side, spans, wraps, band, parts[part]))
        ratio = input_ / (engine * 0.99)
        turns = drive[8] / ratio
        found[n, 0] = 1.0 if fits and slack >= 0.0 else 0.0
        found[n, 1] = angle
        found[n, 2] = slack
        found[n, 3] = min(wraps[0], wraps[2])
        found[n, 4] = nearest
        found[n, 5] = turns / FULL_TURN / drive[9] * drive[10]
        found[n, 6] = turns / drive[11] - 1.0
        found[n, 7] = price
