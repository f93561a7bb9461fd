"""Statistics of a column, the same whatever the order of the pieces, and its readings far from the rest.

Outliers are flagged, never dropped: modified z-score above 3.5 by the median absolute deviation, or by the mean one
where more than half of the readings are the same (common practice).
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from .column_plan import ColumnPlan
from .readings import Floats


class Statistics(NamedTuple):
    """Mean, sample standard deviation (None for one reading), extremes, and Cp, Cpk where they make sense."""

    mean: float
    standard_deviation: float | None
    min: float
    max: float
    cp: float | None
    cpk: float | None
    size: int = 0


def in_order(values: Floats) -> Floats:
    """Return the measured readings in ascending order.

    A sum of doubles depends on the order of its terms; a verdict must not.
    """
    ordered = np.sort(values)
    # NaN, a piece that was not measured, is sorted to the end.
    if ordered.size and np.isnan(ordered[-1]):
        return ordered[: int(np.searchsorted(ordered, np.inf, side="right"))]
    return ordered


def statistics(plan: ColumnPlan, ordered: Floats) -> Statistics | None:
    """Return the statistics of readings in ascending order, in their own unit, or None where there are none.

    Cp = (H - L) / 6 s; Cpk = nearest limit / 3 s, s the sample standard deviation of all readings given.
    """
    if not ordered.size:
        return None
    mean = float(np.add.reduce(ordered)) / ordered.size
    deviation = _deviation(ordered, mean) if ordered.size > 1 else None
    cp, cpk = _capability(plan, mean, deviation)
    return Statistics(mean, deviation, float(ordered[0]), float(ordered[-1]), cp, cpk, int(ordered.size))


def statistics_of_one(reading: float) -> Statistics:
    """Return what `statistics` returns of one reading; a sum never is the negative zero."""
    return Statistics(0.0 + reading, None, reading, reading, None, None, 1)


def _deviation(ordered: Floats, mean: float) -> float:
    """Return the sample standard deviation, with n - 1 in its denominator."""
    spread = ordered - mean
    return math.sqrt(float(np.add.reduce(spread * spread)) / (ordered.size - 1))


def merged(plan: ColumnPlan, one: Statistics | None, other: Statistics | None) -> Statistics | None:
    """Return the statistics of two blocks together (pairwise update of mean and squared deviations)."""
    if one is None or other is None:
        return other if one is None else one
    size = one.size + other.size
    shift = other.mean - one.mean
    mean = one.mean + shift * other.size / size
    squares = sum((block.standard_deviation or 0.0) ** 2 * (block.size - 1) for block in (one, other))
    squares += shift * shift * one.size * other.size / size
    deviation = math.sqrt(squares / (size - 1))
    cp, cpk = _capability(plan, mean, deviation)
    return Statistics(mean, deviation, min(one.min, other.min), max(one.max, other.max), cp, cpk, size)


def _capability(plan: ColumnPlan, mean: float, deviation: float | None) -> tuple[float | None, float | None]:
    if not deviation:
        return None, None
    low, high = plan.doubles
    distances = [high - mean] if high is not None else []
    distances += [mean - low] if low is not None else []
    cp = (high - low) / (6 * deviation) if low is not None and high is not None else None
    cpk = min(distances) / (3 * deviation) if distances else None
    return _finite(cp), _finite(cpk)


def _finite(index: float | None) -> float | None:
    return index if index is not None and math.isfinite(index) else None


_LIMIT, _FEWEST = 3.5, 5
#: What makes a standard deviation of the median and of the mean absolute deviation of a normal sample.
_OF_MEDIAN, _OF_MEAN = 1 / 0.6745, 1.253314
_NONE: npt.NDArray[np.intp] = np.array([], dtype=np.intp)


def outliers(values: Floats, ordered: Floats) -> npt.NDArray[np.intp]:
    """Return the positions of outlying readings; none with fewer than five readings or without spread.

    `ordered` holds the measured readings in ascending order.
    """
    if len(ordered) < _FEWEST:
        return _NONE
    middle = (ordered[(len(ordered) - 1) // 2] + ordered[len(ordered) // 2]) / 2
    deviation = _OF_MEDIAN * _median_distance(ordered, middle) or _OF_MEAN * np.abs(ordered - middle).mean()
    if max(middle - ordered[0], ordered[-1] - middle) <= _LIMIT * deviation:
        return _NONE
    return np.flatnonzero(np.abs(values - middle) > _LIMIT * deviation)


def _median_distance(ordered: Floats, middle: float) -> float:
    """Return the median absolute distance from the middle: the least reach of half of the readings, side by side."""
    half = len(ordered) // 2
    reach = np.maximum(middle - ordered[: len(ordered) - half], ordered[half:] - middle)
    return float(np.minimum.reduce(reach))
