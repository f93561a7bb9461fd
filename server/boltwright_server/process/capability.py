"""Process capability and performance indices.

ISO 22514-2 (terms and formulas from memory): Cp, Cpk with the spread within subgroups, Pp, Ppk with the overall one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..quantities import NotUnderstood
from .distributions import NORMAL, chi_square_quantile
from .subgroups import LARGEST, Floats, within

#: Sums of decimals read as doubles leave dust; a spread below this part of the mean is no spread.
_DUST = 1e-13


@dataclass(frozen=True, slots=True)
class Index:
    """An index with its two-sided confidence interval."""

    value: float
    confidence_interval: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Capability:
    """Indices of a process; None where a limit or a spread is missing. Figures in the unit of the values."""

    count: int
    mean: float
    standard_deviation_within: float | None
    standard_deviation_overall: float | None
    within_method: str
    cp: Index | None
    cpk: Index | None
    pp: Index | None
    ppk: Index | None
    notices: tuple[str, ...]


def capability(
    values: Floats, low: float | None, high: float | None, subgroup_size: int = 1, confidence: float = 0.95
) -> Capability:
    """Return the indices of values in the order of production against limits, one of which may be missing.

    Intervals: Cp and Pp by chi-square, Cpk and Ppk by the normal approximation of their standard error.

    Raises:
        NotUnderstood: fewer values than two or than one subgroup, no limit, or a subgroup size without factors.
    """
    _check(values, low, high, subgroup_size)
    inner = within(values, subgroup_size)
    overall = float(np.sort(values).std(ddof=1))
    mean = float(np.sort(values).mean())
    notices = []
    if inner.left_out:
        notices.append(
            f"the last {inner.left_out} value(s) make no whole subgroup and are left out of the spread within"
        )
    dust = _DUST * max(abs(mean), 1e-300)
    if inner.standard_deviation <= dust or overall <= dust:
        notices.append("the values have no spread: the indices have no meaning")
    spread = inner.standard_deviation if inner.standard_deviation > dust else None
    total = overall if overall > dust else None
    freedom = float(len(values) - 1)
    return Capability(
        len(values),
        mean,
        inner.standard_deviation,
        overall,
        inner.method,
        _two_sided(low, high, spread, inner.degrees_of_freedom, confidence),
        _nearest(mean, low, high, spread, inner.degrees_of_freedom, len(values), confidence),
        _two_sided(low, high, total, freedom, confidence),
        _nearest(mean, low, high, total, freedom, len(values), confidence),
        tuple(notices),
    )


def _check(values: Floats, low: float | None, high: float | None, size: int) -> None:
    if not 1 <= size <= LARGEST:
        raise NotUnderstood(f"subgroup_size is from 1 to {LARGEST}", member="subgroup_size", code="out_of_range")
    least = max(2, size)
    if len(values) < least:
        raise NotUnderstood(f"capability needs at least {least} values", member="values", code="out_of_range")
    if low is None and high is None:
        raise NotUnderstood("capability needs min or max", member="min", code="missing_member")
    if low is not None and high is not None and low >= high:
        raise NotUnderstood(f"min {low} is not below max {high}", member="min", code="contradiction")


def _two_sided(
    low: float | None, high: float | None, spread: float | None, freedom: float, confidence: float
) -> Index | None:
    if low is None or high is None or spread is None:
        return None
    value = (high - low) / (6 * spread)
    tail = (1 - confidence) / 2
    ends = [value * math.sqrt(chi_square_quantile(p, freedom) / freedom) for p in (tail, 1 - tail)]
    return Index(value, (ends[0], ends[1]))


def _nearest(
    mean: float,
    low: float | None,
    high: float | None,
    spread: float | None,
    freedom: float,
    count: int,
    confidence: float,
) -> Index | None:
    if spread is None:
        return None
    distances = [high - mean] if high is not None else []
    distances += [mean - low] if low is not None else []
    value = min(distances) / (3 * spread)
    error = math.sqrt(1 / (9 * count) + value * value / (2 * freedom))
    reach = NORMAL.inv_cdf((1 + confidence) / 2) * error
    return Index(value, (value - reach, value + reach))
