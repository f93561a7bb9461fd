"""Capability indices of a normal distribution with their confidence intervals.

ISO 22514-2 and ISO 22514-4 (formulas from memory): Cp and Pp by chi-square, Cpk and Ppk by the normal approximation of
their standard error, sqrt(1 / 9n + C^2 / 2f).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from .distributions import NORMAL, chi_square_quantile


@dataclass(frozen=True, slots=True)
class Index:
    """An index with its two-sided confidence interval; an end that cannot be given is None."""

    value: float
    confidence_interval: tuple[float | None, float | None]


@dataclass(frozen=True, slots=True)
class Spread:
    """A standard deviation with its degrees of freedom, from `count` values around `mean`."""

    standard_deviation: float
    degrees_of_freedom: float
    mean: float
    count: int


def two_sided(low: float | None, high: float | None, spread: Spread | None, confidence: float) -> Index | None:
    """Return Cp or Pp; None with one limit or without spread."""
    if low is None or high is None or spread is None:
        return None
    value = (high - low) / (6 * spread.standard_deviation)
    freedom, tail = spread.degrees_of_freedom, (1 - confidence) / 2
    ends = [value * math.sqrt(chi_square_quantile(p, freedom) / freedom) for p in (tail, 1 - tail)]
    return Index(value, (ends[0], ends[1]))


def nearest(low: float | None, high: float | None, spread: Spread | None, confidence: float) -> Index | None:
    """Return Cpk or Ppk, of the limit that is nearer to the mean; None without spread."""
    if spread is None:
        return None
    distances = [high - spread.mean] if high is not None else []
    distances += [spread.mean - low] if low is not None else []
    value = min(distances) / (3 * spread.standard_deviation)
    error = math.sqrt(1 / (9 * spread.count) + value * value / (2 * spread.degrees_of_freedom))
    reach = NORMAL.inv_cdf((1 + confidence) / 2) * error
    return Index(value, (value - reach, value + reach))
