"""Shewhart control charts and their run rules.

ISO 7870-2:2013 (factors, basic set of rules) and ISO 8258:1991 (eight tests); the wording of the rules from memory.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from ..quantities import NotUnderstood
from .subgroups import Floats, factor, split

CHARTS = ("mean_and_range", "mean_and_standard_deviation", "individuals")
Mask = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Chart:
    """One half of a chart: its points, centre line and control limits, in the unit of the values."""

    id: str
    points: Floats
    centre: float
    lower: float
    upper: float
    #: One standard deviation of the plotted statistic; None where the zones have no meaning.
    sigma: float | None


@dataclass(frozen=True, slots=True)
class Signal:
    """Points at which a rule fires; each is the last point of its pattern."""

    rule: str
    chart: str
    detail: str
    points: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class ControlChart:
    """A chart of location and one of spread, and the signals of the rules that were asked for."""

    kind: str
    subgroup_size: int
    charts: tuple[Chart, Chart]
    signals: tuple[Signal, ...]
    left_out: int

    @property
    def in_control(self) -> bool:
        """No rule fires."""
        return not self.signals


def control_chart(values: Floats, kind: str, subgroup_size: int, rules: Sequence[str]) -> ControlChart:
    """Return the chart of values in the order of production.

    ISO 7870-2:2013: mean +- A2 R, D3 R and D4 R; mean +- A3 s, B3 s and B4 s; individuals +- 2.660 MR.

    Raises:
        NotUnderstood: too few values, or a subgroup size that does not fit the kind of chart.
    """
    size = 1 if kind == "individuals" else subgroup_size
    if kind != "individuals" and size < 2:
        raise NotUnderstood(f"{kind} needs subgroups of 2 or more", member="subgroup_size", code="out_of_range")
    if len(values) < 2 * size:
        raise NotUnderstood(f"a chart needs at least {2 * size} values", member="values", code="out_of_range")
    charts = _individuals(values) if size == 1 else _subgroups(split(values, size), kind)
    signals = [signal for rule in rules for signal in RULES[rule].signals(rule, charts)]
    left_out = 0 if size == 1 else len(values) % size
    return ControlChart(kind, size, charts, tuple(signals), left_out)


def _individuals(values: Floats) -> tuple[Chart, Chart]:
    moving = np.abs(np.diff(values))
    mean, spread = float(values.mean()), float(moving.mean())
    sigma = spread / factor("d2", 2)
    return (
        Chart("individuals", values, mean, mean - 3 * sigma, mean + 3 * sigma, sigma),
        Chart("moving_range", moving, spread, factor("D3", 2) * spread, factor("D4", 2) * spread, None),
    )


def _subgroups(groups: Floats, kind: str) -> tuple[Chart, Chart]:
    n = groups.shape[1]
    means = groups.mean(axis=1)
    centre = float(means.mean())
    by_range = kind == "mean_and_range"
    spreads = np.ptp(groups, axis=1) if by_range else groups.std(axis=1, ddof=1)
    spread = float(spreads.mean())
    width, low, high = (factor(name, n) for name in (("A2", "D3", "D4") if by_range else ("A3", "B3", "B4")))
    return (
        Chart("mean", means, centre, centre - width * spread, centre + width * spread, width * spread / 3),
        Chart("range" if by_range else "standard_deviation", spreads, spread, low * spread, high * spread, None),
    )


@dataclass(frozen=True, slots=True)
class Rule:
    """A run rule: what it looks for on which chart. `fires` marks the last point of each pattern."""

    detail: str
    fires: Callable[[Chart], Mask]
    on_spread: bool = False

    def signals(self, name: str, charts: tuple[Chart, Chart]) -> list[Signal]:
        """Return a signal for each chart on which the rule fires."""
        found = []
        for chart in charts if self.on_spread else charts[:1]:
            points = np.flatnonzero(self.fires(chart))
            if points.size:
                found.append(Signal(name, chart.id, self.detail, tuple(int(point) for point in points)))
        return found


def _outside(chart: Chart) -> Mask:
    found: Mask = (chart.points > chart.upper) | (chart.points < chart.lower)
    return found


def _windows(mask: Mask, length: int, least: int) -> Mask:
    """True at the last point of each window of `length` points that holds at least `least` true ones."""
    found = np.zeros(mask.shape, dtype=bool)
    if len(mask) >= length:
        sums = np.convolve(mask.astype(np.int64), np.ones(length, dtype=np.int64), "valid")
        found[length - 1 :] = sums >= least
    return found


def _same_side(length: int) -> Callable[[Chart], Mask]:
    def fires(chart: Chart) -> Mask:
        above, below = chart.points > chart.centre, chart.points < chart.centre
        found: Mask = _windows(above, length, length) | _windows(below, length, length)
        return found

    return fires


def _trend(points: int) -> Callable[[Chart], Mask]:
    def fires(chart: Chart) -> Mask:
        steps = np.diff(chart.points)
        found = np.zeros(len(chart.points), dtype=bool)
        found[1:] = _windows(steps > 0, points - 1, points - 1) | _windows(steps < 0, points - 1, points - 1)
        return found

    return fires


def _alternating(chart: Chart) -> Mask:
    steps = np.sign(np.diff(chart.points))
    turns = np.concatenate(([False, False], steps[1:] * steps[:-1] < 0))
    return _windows(turns, 12, 12)


def _beyond(sigmas: int, length: int, least: int) -> Callable[[Chart], Mask]:
    def fires(chart: Chart) -> Mask:
        reach = sigmas * (chart.sigma or 0.0)
        high = _windows(chart.points > chart.centre + reach, length, least) & (chart.points > chart.centre + reach)
        low = _windows(chart.points < chart.centre - reach, length, least) & (chart.points < chart.centre - reach)
        found: Mask = high | low
        return found

    return fires


def _within_one_sigma(chart: Chart) -> Mask:
    return _windows(np.abs(chart.points - chart.centre) < (chart.sigma or 0.0), 15, 15)


def _without_one_sigma(chart: Chart) -> Mask:
    """Eight points outside one standard deviation, with points on both sides."""
    far = _windows(np.abs(chart.points - chart.centre) > (chart.sigma or 0.0), 8, 8)
    above = _windows(chart.points > chart.centre, 8, 1)
    below = _windows(chart.points < chart.centre, 8, 1)
    found: Mask = far & above & below
    return found


RULES: dict[str, Rule] = {
    "outside_limits": Rule("a point outside the control limits", _outside, on_spread=True),
    "seven_same_side": Rule("seven points in a row on one side of the centre line", _same_side(7)),
    "seven_trend": Rule("seven points in a row rising or falling", _trend(7)),
    "nine_same_side": Rule("nine points in a row on one side of the centre line", _same_side(9)),
    "six_trend": Rule("six points in a row rising or falling", _trend(6)),
    "fourteen_alternating": Rule("fourteen points in a row alternating up and down", _alternating),
    "two_of_three_beyond_two_sigma": Rule("two of three points beyond 2 sigma on one side", _beyond(2, 3, 2)),
    "four_of_five_beyond_one_sigma": Rule("four of five points beyond 1 sigma on one side", _beyond(1, 5, 4)),
    "fifteen_within_one_sigma": Rule("fifteen points in a row within 1 sigma of the centre line", _within_one_sigma),
    "eight_outside_one_sigma": Rule("eight points in a row outside 1 sigma, on both sides", _without_one_sigma),
}
#: ISO 7870-2:2013, basic set; ISO 8258:1991, the eight tests.
RULE_SETS = {
    "ISO 7870-2": ("outside_limits", "seven_same_side", "seven_trend"),
    "ISO 8258": (
        "outside_limits",
        "nine_same_side",
        "six_trend",
        "fourteen_alternating",
        "two_of_three_beyond_two_sigma",
        "four_of_five_beyond_one_sigma",
        "fifteen_within_one_sigma",
        "eight_outside_one_sigma",
    ),
}
