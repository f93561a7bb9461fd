"""Drawing of a control chart: location above spread, control limits, and what the run rules found.

ISO 7870-2:2013 (centre line CL, control limits UCL and LCL); the layout is our own. What matters shows by shape: a
point outside the limits is a diamond, the last point of a run a ring, and the run itself a bar below the points.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ...process import Chart, ControlChart, Signal
from ..drawings.deviation_chart import ACCENT
from ..drawings.pen import INK, LETTER, THIN, lettering, thin
from ..figures import unit_written, written
from ..names import capital
from ..svg import document, element, path
from .lettering import LINE, ending, paragraph, room_of, widest
from .scale import Scale, decimals_for, figure_written, spread_out, stated

WIDTH = 110.0
#: The last points are drawn; more would run into each other at the width of a telephone.
MOST_POINTS = 100
_MARGIN = 2.0
_HEIGHTS = (40.0, 26.0)
_STRIP = 3.6
_DOT, _DIAMOND, _RING = 0.65, 1.7, 1.35
_SMALL_BEYOND = 60
_NAMES = {
    "mean": "Means",
    "range": "Ranges",
    "standard_deviation": "Standard deviations",
    "individuals": "Single values",
    "moving_range": "Moving ranges of two",
}
_OUTSIDE = "outside_limits"


def control_chart_drawing(found: ControlChart, title: str | None = None, unit: str | None = None) -> str:
    """Return the drawing of a control chart as SVG, in mm on paper. Points are numbered from 1."""
    window = _Window.of(found)
    parts, top = paragraph(title or "Control chart", _MARGIN, 0.8, WIDTH - 2 * _MARGIN, LETTER * 1.2)
    left = _MARGIN + max(_room_of_ticks(chart, window) for chart in found.charts) + 1.2
    right = WIDTH - _MARGIN - max(widest(_limit_texts(chart)) for chart in found.charts) - 2.2
    across = Scale(window.first - 0.5, window.last + 0.5, left, right)
    marks = _letters(found.signals)
    for chart, height in zip(found.charts, _HEIGHTS, strict=True):
        heading = f"{_NAMES[chart.id]}{_of_size(found, chart)}{_in(unit)}"
        panel = _Panel(chart, window, across, top + LINE + 2.0, height, found.signals, marks)
        parts += [lettering(heading, (_MARGIN, top + LINE)), *panel.drawn()]
        top = panel.bottom + 2.0
    parts += _numbers(found, across, top)
    legend, top = _legend(found, marks, window, top + LINE + 1.5)
    return document(
        "control-chart",
        WIDTH,
        top + 1.5,
        title or "Control chart",
        description(found, unit),
        *parts,
        *legend,
    )


@dataclass(frozen=True, slots=True)
class _Window:
    """Numbers of the first and last point that are drawn, and of all points."""

    first: int
    last: int

    @classmethod
    def of(cls, found: ControlChart) -> _Window:
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


def _of_size(found: ControlChart, chart: Chart) -> str:
    return (
        f" of subgroups of {found.subgroup_size}" if chart.id == found.charts[0].id and found.subgroup_size > 1 else ""
    )


def _in(unit: str | None) -> str:
    return f", {unit_written(unit)}" if unit and unit_written(unit) else ""


def _scale_of(chart: Chart, window: _Window, start: float, end: float) -> Scale:
    values = [value for _, _, value in window.points(chart)]
    return Scale.around([*values, chart.lower, chart.centre, chart.upper], start, end)


def _room_of_ticks(chart: Chart, window: _Window) -> float:
    return widest(map(figure_written, _scale_of(chart, window, 0.0, 1.0).ticks(5)))


def _limit_texts(chart: Chart) -> list[str]:
    decimals = decimals_for(chart.upper - chart.lower)
    lines = (("LCL", chart.lower), ("CL", chart.centre), ("UCL", chart.upper))
    return [f"{name} {stated(value, decimals)}" for name, value in lines]


def _letters(signals: tuple[Signal, ...]) -> dict[str, str]:
    """Return a letter for each run rule that fires."""
    rules = dict.fromkeys(signal.rule for signal in signals if signal.rule != _OUTSIDE)
    return {rule: chr(ord("a") + at) for at, rule in enumerate(rules)}


@dataclass(frozen=True, slots=True)
class _Panel:
    """One half of the chart, from `top` to `bottom`, with a strip of bars for the runs below its points."""

    chart: Chart
    window: _Window
    across: Scale
    top: float
    height: float
    signals: tuple[Signal, ...]
    letters: dict[str, str]

    @property
    def runs(self) -> list[Signal]:
        """Signals of run rules on this half."""
        return [one for one in self.signals if one.chart == self.chart.id and one.rule != _OUTSIDE]

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
        for value, place, label, text in zip(values, places, labels, reversed(_limit_texts(self.chart)), strict=True):
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
        outside = self._indexes(_OUTSIDE)
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


def _numbers(found: ControlChart, across: Scale, top: float) -> list[str]:
    """Return the numbers of the points below both halves."""
    what = "subgroup" if found.subgroup_size > 1 else "value"
    parts = [lettering(what, (_MARGIN, top + LETTER))]
    edge = _MARGIN + room_of(what) + 1.0
    for tick in across.whole_ticks(6):
        text, at = written(tick), across.at(float(tick))
        if at - room_of(text) / 2 > edge:
            parts.append(lettering(text, (at, top + LETTER), "middle"))
            edge = at + room_of(text) / 2 + 1.0
    return parts


def _legend(found: ControlChart, letters: dict[str, str], window: _Window, top: float) -> tuple[list[str], float]:
    """Return what the shapes mean, each with the points that bear it, and the lower end."""
    parts: list[str] = []
    for one in found.signals:
        text = _signal_text(one, found, window)
        middle = top + LETTER * 0.64
        if one.rule == _OUTSIDE:
            parts.append(diamond((_MARGIN + 2.0, middle)))
        else:
            parts += [ring((_MARGIN + 5.6, middle)), lettering(letters[one.rule], (_MARGIN + 1.2, top + LETTER))]
        lines, top = paragraph(text, _MARGIN + 8.5, top, WIDTH - 2 * _MARGIN - 8.5)
        parts += lines
    for text in _remarks(found, window):
        lines, top = paragraph(text, _MARGIN, top, WIDTH - 2 * _MARGIN)
        parts += lines
    return parts, top


def _signal_text(one: Signal, found: ControlChart, window: _Window) -> str:
    half = next(chart for chart in found.charts if chart.id == one.chart)
    return f"{one.detail} ({_NAMES[one.chart].lower()}): {_listed([window.number(half, p) for p in one.points])}"


def _listed(numbers: list[int], most: int = 8) -> str:
    shown = ", ".join(map(str, numbers[:most]))
    return shown if len(numbers) <= most else f"{shown} and {len(numbers) - most} more"


def _remarks(found: ControlChart, window: _Window) -> list[str]:
    texts = [] if found.signals else ["No run rule fires."]
    if window.first > 1:
        texts.append(f"The last {MOST_POINTS} of {written(Decimal(window.last))} points are drawn.")
    if found.given is not None:
        texts.append("Limits from a given mean and standard deviation.")
    return [*texts, "Control limits describe the process; they are no limits of the product."]


def description(found: ControlChart, unit: str | None) -> str:
    """Return what the drawing shows, in words."""
    what = f"subgroups of {found.subgroup_size}" if found.subgroup_size > 1 else "single values"
    sentences = [f"{len(found.charts[0].points)} {what}{_in(unit)}, in the order of production."]
    for chart in found.charts:
        lower, centre, upper = _limit_texts(chart)
        sentences.append(f"{_NAMES[chart.id]}: {centre}, {lower}, {upper}.")
    window = _Window.of(found)
    sentences += [f"{capital(_signal_text(one, found, window))}." for one in found.signals]
    return " ".join(sentences if found.signals else [*sentences, "No run rule fires."])
