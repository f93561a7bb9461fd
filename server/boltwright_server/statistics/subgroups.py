"""Spread within subgroups.

ISO 7870-2:2013, factors d2 and c4: mean range up to 10 pieces a subgroup, mean standard deviation above, moving range
of two for single pieces.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

import numpy as np
import numpy.typing as npt

from ..quantities import NotUnderstood
from ..standards import rules

Floats = npt.NDArray[np.float64]
LARGEST = 25
LARGEST_BY_RANGE = 10
#: A double carries 15 to 16 digits; sums of readings are right to this many.
_KEPT_DIGITS = 14


@dataclass(frozen=True, slots=True)
class Within:
    """Standard deviation within subgroups, how it was found, and its effective degrees of freedom."""

    standard_deviation: float
    method: str
    degrees_of_freedom: float
    left_out: int


def factor(name: str, n: int) -> float:
    """Return a factor of ISO 7870-2:2013 for subgroups of `n`.

    Raises:
        NotUnderstood: no factors are tabulated for that size.
    """
    row = rules("ISO 7870-2").table("factors").find(Decimal(n))
    if row is None:
        raise NotUnderstood(
            f"subgroup_size is from 1 to {LARGEST}, not {n}", member="subgroup_size", code="out_of_range"
        )
    return float(row.number(name))


def free_of_dust(found: Floats, values: Floats) -> Floats:
    """Return what was computed from values without the last bits that their sums leave behind.

    Without it equal pieces would show a spread, and a point on a line would lie beside it.
    """
    largest = float(np.abs(values).max())
    return found if largest == 0 else np.round(found, _KEPT_DIGITS - math.ceil(math.log10(largest)))


def mean_of(values: Floats) -> float:
    """Return the mean of values, the same whatever their order."""
    return float(free_of_dust(np.sort(values).mean(keepdims=True), values)[0])


def split(values: Floats, size: int) -> Floats:
    """Return whole subgroups as rows; a short last one is left out."""
    whole = len(values) // size
    return values[: whole * size].reshape(whole, size)


def within(values: Floats, size: int) -> Within:
    """Return the spread within subgroups of `size`, in the order in which the pieces were made.

    Degrees of freedom are effective ones for the estimator (common practice): 0.9 k (n - 1) by ranges,
    k (n - 1) by standard deviations, 0.62 (k - 1) by moving ranges.
    """
    if size == 1:
        moving = np.abs(np.diff(values))
        return Within(float(moving.mean()) / factor("d2", 2), "mean moving range / d2", 0.62 * len(moving), 0)
    groups = split(values, size)
    left_out = len(values) - groups.size
    freedom = len(groups) * (size - 1)
    if size <= LARGEST_BY_RANGE:
        spread = float(np.ptp(groups, axis=1).mean()) / factor("d2", size)
        return Within(spread, "mean range / d2", 0.9 * freedom, left_out)
    spread = float(groups.std(axis=1, ddof=1).mean()) / factor("c4", size)
    return Within(spread, "mean standard deviation / c4", float(freedom), left_out)
