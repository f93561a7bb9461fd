"""Run rules of control charts: patterns of points that a process in control shows rarely.

ISO 7870-2:2013 (basic set) and ISO 8258:1991 (eight tests); the wording of the rules from memory.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from .subgroups import Floats

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
    """Points at which a rule fires; each is the last of a pattern of `length` points."""

    rule: str
    chart: str
    detail: str
    points: tuple[int, ...]
    length: int = 1


@dataclass(frozen=True, slots=True)
class Rule:
    """A run rule: what it looks for on which chart. `fires` marks the last point of each pattern."""

    detail: str
    fires: Callable[[Chart], Mask]
    length: int = 1
    on_spread: bool = False

    def signals(self, name: str, charts: tuple[Chart, Chart]) -> list[Signal]:
        """Return a signal for each chart on which the rule fires."""
        found = []
        for chart in charts if self.on_spread else charts[:1]:
            points = np.flatnonzero(self.fires(chart))
            if points.size:
                found.append(Signal(name, chart.id, self.detail, tuple(points.tolist()), self.length))
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
    "seven_same_side": Rule("seven points in a row on one side of the centre line", _same_side(7), 7),
    "seven_trend": Rule("seven points in a row rising or falling", _trend(7), 7),
    "nine_same_side": Rule("nine points in a row on one side of the centre line", _same_side(9), 9),
    "six_trend": Rule("six points in a row rising or falling", _trend(6), 6),
    "fourteen_alternating": Rule("fourteen points in a row alternating up and down", _alternating, 14),
    "two_of_three_beyond_two_sigma": Rule("two of three points beyond 2 sigma on one side", _beyond(2, 3, 2), 3),
    "four_of_five_beyond_one_sigma": Rule("four of five points beyond 1 sigma on one side", _beyond(1, 5, 4), 5),
    "fifteen_within_one_sigma": Rule(
        "fifteen points in a row within 1 sigma of the centre line", _within_one_sigma, 15
    ),
    "eight_outside_one_sigma": Rule("eight points in a row outside 1 sigma, on both sides", _without_one_sigma, 8),
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
