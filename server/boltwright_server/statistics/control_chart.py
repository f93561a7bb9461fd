"""Shewhart control charts: centre lines and control limits of location and spread.

ISO 7870-2:2013, factors of its table: limits from the values themselves, or from given (pre-specified) ones.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..quantities import Contradiction, NotUnderstood
from .run_rules import RULES, Chart, Signal
from .subgroups import Floats, factor, free_of_dust, mean_of, split

CHARTS = ("mean_and_range", "mean_and_standard_deviation", "individuals")
#: Common practice, as the trade's handbooks advise it: limits from fewer points are provisional.
ENOUGH_POINTS = 20


@dataclass(frozen=True, slots=True)
class Given:
    """Pre-specified mean and standard deviation of single values, in the unit of the values."""

    mean: float
    standard_deviation: float


@dataclass(frozen=True, slots=True)
class ControlChart:
    """A chart of location and one of spread, and the signals of the rules that were asked for."""

    kind: str
    subgroup_size: int
    charts: tuple[Chart, Chart]
    signals: tuple[Signal, ...]
    left_out: int
    given: Given | None = None

    @property
    def in_control(self) -> bool:
        """No rule fires."""
        return not self.signals


def control_chart(
    values: Floats, kind: str, subgroup_size: int, rules: Sequence[str], given: Given | None = None
) -> ControlChart:
    """Return the chart of values in the order of production.

    ISO 7870-2:2013: mean +- A2 R, D3 R and D4 R; mean +- A3 s, B3 s and B4 s; individuals +- 2.660 MR. With given
    mean m and standard deviation q: m +- A q, D1 q and D2 q, B5 q and B6 q, individuals m +- 3 q.

    Raises:
        NotUnderstood: too few values, or a subgroup size that does not fit the kind of chart.
        Contradiction: a given standard deviation of 0 or less.
    """
    size = 1 if kind == "individuals" else subgroup_size
    if kind != "individuals" and size < 2:
        raise NotUnderstood(f"{kind} needs subgroups of 2 or more", member="subgroup_size", code="out_of_range")
    if len(values) < 2 * size:
        raise NotUnderstood(f"a chart needs at least {2 * size} values", member="values", code="out_of_range")
    if given is not None and given.standard_deviation <= 0:
        raise Contradiction("a standard deviation is above 0", member="given_standard_deviation")
    charts = _individuals(values, given) if size == 1 else _subgroups(split(values, size), kind, given)
    signals = [signal for rule in rules for signal in RULES[rule].signals(rule, charts)]
    left_out = 0 if size == 1 else len(values) % size
    return ControlChart(kind, size, charts, tuple(signals), left_out, given)


def _individuals(values: Floats, given: Given | None) -> tuple[Chart, Chart]:
    moving = free_of_dust(np.abs(np.diff(values)), values)
    if given is None:
        mean, spread = mean_of(values), float(moving.mean())
        sigma = spread / factor("d2", 2)
    else:
        mean, sigma = given.mean, given.standard_deviation
        spread = factor("d2", 2) * sigma
    return (
        Chart("individuals", values, mean, mean - 3 * sigma, mean + 3 * sigma, sigma),
        Chart("moving_range", moving, spread, factor("D3", 2) * spread, factor("D4", 2) * spread, None),
    )


def _subgroups(groups: Floats, kind: str, given: Given | None) -> tuple[Chart, Chart]:
    n = groups.shape[1]
    means = free_of_dust(groups.mean(axis=1), groups)
    by_range = kind == "mean_and_range"
    spreads = free_of_dust(np.ptp(groups, axis=1) if by_range else groups.std(axis=1, ddof=1), groups)
    spread_id = "range" if by_range else "standard_deviation"
    if given is not None:
        return _of_given(means, spread_id, spreads, given, n)
    centre, spread = mean_of(means), float(spreads.mean())
    width, low, high = (factor(name, n) for name in (("A2", "D3", "D4") if by_range else ("A3", "B3", "B4")))
    reach = width * spread
    return (
        Chart("mean", means, centre, centre - reach, centre + reach, reach / 3),
        Chart(spread_id, spreads, spread, low * spread, high * spread, None),
    )


def _of_given(means: Floats, spread_id: str, spreads: Floats, given: Given, n: int) -> tuple[Chart, Chart]:
    names = ("d2", "D1", "D2") if spread_id == "range" else ("c4", "B5", "B6")
    centre, low, high = (factor(name, n) * given.standard_deviation for name in names)
    reach = factor("A", n) * given.standard_deviation
    return (
        Chart("mean", means, given.mean, given.mean - reach, given.mean + reach, reach / 3),
        Chart(spread_id, spreads, centre, low, high, None),
    )
