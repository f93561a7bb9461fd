"""One half of a control chart: its points on a scale between control limits, and bars for the runs below them."""

from __future__ import annotations

from dataclasses import dataclass

from ...statistics import Chart, ControlChart, Signal
from ..drawings.deviation_chart import ACCENT
from ..drawings.pen import INK, LETTER, THIN, lettering, thin
from ..svg import element, path
from .lettering import LINE, ending, widest
from .scale import Scale, decimals_for, figure_written, spread_out, stated

#: The last points are drawn; more would run into each other at the width of a telephone.
MOST_POINTS = 100
#: The rule whose points are marked by themselves; the others find runs.
OUTSIDE = "outside_limits"
_STRIP = 3.6
_DOT, _DIAMOND, _RING = 0.65, 1.7, 1.35
_SMALL_BEYOND = 60


@dataclass(frozen=True, slots=True)
class Window:
    """Numbers of the first and last point that are drawn, and of all points."""

    first: int
    last: int

    @classmethod
    def of(cls, found: ControlChart) -> Window:
        """Return the window on the last points."""
        last = len(found.charts[0].points)
        return cls(max(1, last - MOST_POINTS + 1), last)

    def number(self, chart: Chart, index: int) -> int:
        """Return the number of a point; a moving range belongs to the later of its two values."""
        return index + 1 + self.last - len(chart.points)

    def points(self, chart: Chart) -> list[tuple[int, int, float]]:
        """Return index, number and value of the points that are drawn."""
        found = [(at, self.number(chart, at), float(value)) for at, value in enumerate(chart.points[-MOST_POINTS:])]
        skipped = len(chart.points) - len(found)
        return [(at + skipped, number + skipped, value) for at, number, value in found]


def _scale_of(chart: Chart, window: Window, start: float, end: float) -> Scale:
    values = [value for _, _, value in window.points(chart)]
    return Scale.around([*values, chart.lower, chart.centre, chart.upper], start, end)


def room_of_ticks(chart: Chart, window: Window) -> float:
    """Return the room that the figures of the scale take."""
    return widest(map(figure_written, _scale_of(chart, window, 0.0, 1.0).ticks(5)))


def limit_texts(chart: Chart) -> list[str]:
    """Return lower limit, centre line and upper limit, named and with three digits of their reach."""
    decimals = decimals_for(chart.upper - chart.lower)
    lines = (("LCL", chart.lower), ("CL", chart.centre), ("UCL", chart.upper))
    return [f"{name} {stated(value, decimals)}" for name, value in lines]


@dataclass(frozen=True, slots=True)
class Panel:
    """One half of the chart, from `top` to `bottom`, with a strip of bars for the runs below its points."""

    chart: Chart
    window: Window
    across: Scale
    top: float
    height: float
    signals: tuple[Signal, ...]
    letters: dict[str, str]

    @property
    def runs(self) -> list[Signal]:
        """Signals of run rules on this half."""
        return [one for one in self.signals if one.chart == self.chart.id and one.rule != OUTSIDE]

    @property
    def floor(self) -> float:
        """The lower end of the points."""
        return self.top + self.height

    @property
    def bottom(self) -> float:
        """The lower end of the strip."""
        return self.floor + _STRIP * len(self.runs)

    def drawn(self) -> list[str]:
        """Return frame, ticks, limits, points and runs."""
        scale = _scale_of(self.chart, self.window, self.floor, self.top)
        left, right = self.across.start, self.across.end
        frame = [thin([(left, self.top), (right, self.top), (right, self.floor), (left, self.floor)], close=True)]
        return [*frame, *self._ticks(scale), *self._limits(scale), *self._points(scale), *self._runs()]

    def _ticks(self, scale: Scale) -> list[str]:
        left = self.across.start
        parts = []
        for tick in scale.ticks(5):
            at = scale.at(float(tick))
            parts.append(thin([(left - 0.8, at), (left, at)]))
            base = min(max(at + LETTER * 0.36, self.top + LETTER * 0.72), self.floor)
            parts.append(ending(figure_written(tick), left - 1.2, base))
        return parts

    def _limits(self, scale: Scale) -> list[str]:
        right = self.across.end
        values = (self.chart.upper, self.chart.centre, self.chart.lower)
        places = [scale.at(value) for value in values]
        labels = spread_out(places, [LINE * 0.85] * 3, self.top - 1.0, self.floor + 1.0)
        parts = []
        for value, place, label, text in zip(values, places, labels, reversed(limit_texts(self.chart)), strict=True):
            dashes = None if value == self.chart.centre else "2.4 1.2"
            parts.append(
                element(
                    "path",
                    d=path([(self.across.start, place), (right, place)]),
                    stroke=INK if value == self.chart.centre else ACCENT,
                    stroke_width=THIN if value == self.chart.centre else THIN * 1.6,
                    stroke_dasharray=dashes,
                    class_="limit",
                )
            )
            parts += [
                thin([(right, place), (right + 1.6, label)]),
                lettering(text, (right + 2.2, label + LETTER * 0.36)),
            ]
        return parts

    def _points(self, scale: Scale) -> list[str]:
        drawn = self.window.points(self.chart)
        places = [(self.across.at(number), scale.at(value)) for _, number, value in drawn]
        parts = [element("path", d=path(places), stroke=INK, stroke_width=THIN, stroke_linejoin="round")]
        outside = self._indexes(OUTSIDE)
        ends = {point for one in self.runs for point in one.points}
        small = 0.6 if len(drawn) > _SMALL_BEYOND else 1.0
        for (index, _, _), place in zip(drawn, places, strict=True):
            if index in outside:
                parts.append(diamond(place))
            else:
                parts.append(element("circle", cx=place[0], cy=place[1], r=_DOT * small, fill=INK))
            if index in ends:
                parts.append(ring(place))
        return parts

    def _indexes(self, rule: str) -> set[int]:
        return {point for one in self.signals if (one.rule, one.chart) == (rule, self.chart.id) for point in one.points}

    def _runs(self) -> list[str]:
        parts = []
        for row, one in enumerate(self.runs):
            at = self.floor + _STRIP * (row + 0.5)
            parts.append(ending(self.letters[one.rule], self.across.start - 1.2, at + LETTER * 0.36))
            parts += [self._bar(first, last, at) for first, last in _stretches(one)]
        return [part for part in parts if part]

    def _bar(self, first: int, last: int, at: float) -> str:
        start, end = (self.window.number(self.chart, index) for index in (first, last))
        if end < self.window.first:
            return ""
        x1, x2 = self.across.at(max(start, self.window.first) - 0.3), self.across.at(end + 0.3)
        box = [(x1, at - 0.7), (x2, at - 0.7), (x2, at + 0.7), (x1, at + 0.7)]
        return element("path", d=path(box, close=True), fill=ACCENT, class_="run")


def _stretches(signal: Signal) -> list[tuple[int, int]]:
    """Return the first and last index of each stretch of points that the patterns of a signal cover."""
    found: list[tuple[int, int]] = []
    for last in signal.points:
        first = last - signal.length + 1
        if found and first <= found[-1][1] + 1:
            found[-1] = (found[-1][0], last)
        else:
            found.append((first, last))
    return found


def diamond(at: tuple[float, float]) -> str:
    """Return the mark of a point outside the limits."""
    x, y = at
    corners = [(x, y - _DIAMOND), (x + _DIAMOND, y), (x, y + _DIAMOND), (x - _DIAMOND, y)]
    return element("path", d=path(corners, close=True), fill=ACCENT, stroke=INK, stroke_width=THIN, class_="outside")


def ring(at: tuple[float, float]) -> str:
    """Return the mark of a point at which a run ends."""
    return element("circle", cx=at[0], cy=at[1], r=_RING, stroke=INK, stroke_width=THIN * 1.3, class_="run-end")
