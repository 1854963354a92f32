"""Corners joined by tapes, adjusted by least squares: Gauss-Newton over numpy.

A network is solved from a start (`drylay.survey.start`) in which the corners already lie the
right way round. Corner 0 stays at the origin, and the line to corner `base` on the first axis.
"""

from math import hypot

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

Array = NDArray[np.float64]
Line = tuple[int, int]
#: Steps, and halvings of one step, before a network counts as one that does not settle.
MOST_STEPS, MOST_HALVINGS = 60, 40
#: A network whose weakest direction is so many times weaker than its stiffest is loose.
LOOSE = 1e-6
#: Two whole numbers of no common rhythm, for places in which no three corners lie in line.
ODD = (0.7548776662466927, 0.5698402909980532)


@frozen(kw_only=True)
class Net:
    """Tapes between numbered corners: their ends, lengths and standard deviations in mm."""

    count: int
    base: int
    lines: tuple[Line, ...]
    long: tuple[float, ...]
    sigma: tuple[float, ...]
    ring: tuple[int, ...]


@frozen(kw_only=True, eq=False)
class Solved:
    """Places, their covariances (two rows a corner), residuals, and how far each is checked."""

    places: Array
    spread: Array
    residuals: Array
    spare: Array
    chi: float


def without(net: Net, at: int) -> Net:
    """Return a network without one of its tapes."""
    keep = [i for i in range(len(net.lines)) if i != at]
    return Net(
        count=net.count,
        base=net.base,
        lines=tuple(net.lines[i] for i in keep),
        long=tuple(net.long[i] for i in keep),
        sigma=tuple(net.sigma[i] for i in keep),
        ring=net.ring,
    )


def is_rigid(count: int, lines: tuple[Line, ...]) -> bool:
    """Return whether tapes between those corners leave no corner loose, wherever they lie."""
    places = np.array([[(i + 1) * odd % 1 for odd in ODD] for i in range(count)])
    weak = _slopes(places, lines)
    return int(np.linalg.matrix_rank(weak, tol=1e-9)) == 2 * count - 3


def solve(net: Net, start: tuple[tuple[float, float], ...]) -> Solved | None:
    """Return a network adjusted from a start; None where it stays loose or does not settle."""
    free = [i for i in range(2 * net.count) if i not in (0, 1, 2 * net.base + 1)]
    weights: Array = np.array([1 / sigma**2 for sigma in net.sigma])
    places = np.array(start, dtype=float)
    for _ in range(MOST_STEPS):
        slopes = _slopes(places, net.lines)[:, free]
        root = np.sqrt(weights)[:, None]
        _, sizes, _ = np.linalg.svd(slopes * root, full_matrices=False)
        if len(sizes) < len(free) or sizes[-1] < LOOSE * sizes[0]:
            return None
        off = (np.array(net.long) - _long(places, net.lines)) * np.sqrt(weights)
        step: Array = np.asarray(np.linalg.lstsq(slopes * root, off, rcond=None)[0], dtype=float)
        places, moved = _moved(net, places, free, step, weights)
        if moved < 1e-9:
            return _solved(net, places, free, weights)
    return _solved(net, places, free, weights)


def _moved(
    net: Net, places: Array, free: list[int], step: Array, weights: Array
) -> tuple[Array, float]:
    """Return places moved by a step, halved until it does not make matters worse."""
    was = _sum_of_squares(net, places, weights)
    for _ in range(MOST_HALVINGS):
        flat = places.reshape(-1).copy()
        flat[free] += step
        tried = flat.reshape(-1, 2)
        if _sum_of_squares(net, tried, weights) <= was:
            return tried, float(np.max(np.abs(step)))
        step = step / 2
    return places, 0.0


def _sum_of_squares(net: Net, places: Array, weights: Array) -> float:
    off = _long(places, net.lines) - np.array(net.long)
    return float(np.sum(weights * off**2))


def _solved(net: Net, places: Array, free: list[int], weights: Array) -> Solved:
    slopes = _slopes(places, net.lines)[:, free]
    spread = np.linalg.inv(slopes.T @ (weights[:, None] * slopes))
    whole = np.zeros((2 * net.count, 2 * net.count))
    whole[np.ix_(free, free)] = spread
    known = np.einsum("ij,jk,ik->i", slopes, spread, slopes) * weights
    residuals = _long(places, net.lines) - np.array(net.long)
    return Solved(
        places=places,
        spread=whole,
        residuals=residuals,
        spare=np.clip(1 - known, 0.0, 1.0),
        chi=float(np.sum(weights * residuals**2)),
    )


def _long(places: Array, lines: tuple[Line, ...]) -> Array:
    ends = np.array(lines)
    return np.asarray(np.hypot(*(places[ends[:, 1]] - places[ends[:, 0]]).T))


def _slopes(places: Array, lines: tuple[Line, ...]) -> Array:
    """Return how each tape grows with each coordinate of each corner."""
    found = np.zeros((len(lines), 2 * len(places)))
    for row, (one, other) in enumerate(lines):
        found[row, 2 * one : 2 * one + 2] = -_unit(places, one, other)
        found[row, 2 * other : 2 * other + 2] = _unit(places, one, other)
    return found


def _unit(places: Array, one: int, other: int) -> Array:
    way = places[other] - places[one]
    return np.asarray(way / (hypot(way[0], way[1]) or 1.0))


def spread_of(solved: Solved, slopes: Array) -> float:
    """Return the standard deviation of a figure that grows so with each coordinate."""
    return float(np.sqrt(max(0.0, float(slopes @ solved.spread @ slopes))))


def apart(solved: Solved, line: Line) -> tuple[float, float]:
    """Return how far apart two corners lie, and its standard deviation."""
    slopes = _slopes(solved.places, (line,))[0]
    return float(_long(solved.places, (line,))[0]), spread_of(solved, slopes)
