"""Bars side by side on one scale, with the levels of their ends; what is closer than a line of text is fanned out."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..svg import element, path
from .deviation_chart import ACCENT, SHADE
from .pen import LETTER, edge, hidden, lettering, thin, width_of

#: Of a chart with a band, and of one without.
_HEIGHT, _LOW = 66.0, 36.0
_BAR, _PITCH, _FAN, _GAP = 7.5, 27.0, 2.6, 0.8
_LINE = LETTER * 1.15
_HEADING = 5.5
_BAND = 0.1


@dataclass(frozen=True, slots=True)
class Level:
    """A level that is written beside its bar."""

    at: Decimal
    text: str
    href: str | None


@dataclass(frozen=True, slots=True)
class Bar:
    """From `low` to `high`, and on to `worn` where wear may take it; a band shades the width of the chart."""

    name: str
    low: Decimal
    high: Decimal
    worn: Decimal | None
    levels: list[Level]
    is_band: bool = False

    @property
    def room(self) -> float:
        """Millimetres on paper that the bar takes with what stands beside it."""
        return max(_PITCH, _BAR + _FAN + _GAP + max(width_of(level.text) for level in self.levels) + 1.0)

    @property
    def ends(self) -> list[Decimal]:
        """Every level that has to be on the chart."""
        return [self.low, self.high] if self.worn is None else [self.low, self.high, self.worn]


@dataclass(frozen=True, slots=True)
class Drawn:
    """The markup of a chart and how high it is, headings included."""

    parts: list[str]
    height: float


def chart(bars: list[Bar], left: float, top: float) -> tuple[Drawn, float, float]:
    """Return the chart, its lower end and its right end."""
    ends = [end for bar in bars for end in bar.ends]
    highest, lowest = max(ends), min(ends)
    height = _HEIGHT if any(bar.is_band for bar in bars) else _LOW
    scale, ceiling = height / float(highest - lowest), top + _HEADING + _LINE

    def level(at: Decimal) -> float:
        return ceiling + scale * float(highest - at)

    right, bottom = left + sum(bar.room for bar in bars), level(lowest) + _LINE
    parts = [_band(bar, left, right, level(bar.high), level(bar.low)) for bar in bars if bar.is_band]
    x = left
    for bar in bars:
        parts += [lettering(bar.name, (x, top + LETTER)), *_bar(bar, x, [level(end) for end in bar.ends])]
        parts += _levels(bar, x + _BAR, [level(one.at) for one in bar.levels])
        x += bar.room
    return Drawn(parts, bottom - top), bottom, right


def _band(bar: Bar, left: float, right: float, upper: float, lower: float) -> str:
    corners = [(left, upper), (right, upper), (right, lower), (left, lower)]
    return element("path", d=path(corners, close=True), fill=ACCENT, fill_opacity=_BAND, class_="band")


def _bar(bar: Bar, x: float, levels: list[float]) -> list[str]:
    lower, upper, *worn = levels
    box = [(x, upper), (x + _BAR, upper), (x + _BAR, lower), (x, lower)]
    fill = element("path", d=path(box, close=True), fill=ACCENT, fill_opacity=SHADE, class_="zone")
    parts = [fill, edge(box, close=True) if bar.is_band else thin(box, close=True)]
    for at in worn:
        near = min(max(at, upper), lower)
        parts += [hidden([(end, near), (end, at)]) for end in (x, x + _BAR) if near != at]
        parts.append(edge([(x, at), (x + _BAR, at)]))
    return parts


def _levels(bar: Bar, x: float, at: list[float]) -> list[str]:
    """Write each level beside its end, with a line to it that fans out where ends are close."""
    order = sorted(range(len(at)), key=at.__getitem__)
    parts = []
    for place, row in zip(order, spread([at[place] for place in order], _LINE), strict=True):
        one, text_at = bar.levels[place], (x + _FAN + _GAP, row + LETTER * 0.36)
        text = lettering(one.text, text_at)
        parts.append(thin([(x, at[place]), (x + _FAN, row)]))
        parts.append(element("a", text, href=one.href, tabindex="-1") if one.href else text)
    return parts


def spread(levels: list[float], least: float) -> list[float]:
    """Return ascending levels moved apart to at least `least`, each run about the middle of where it was."""
    runs: list[tuple[list[float], float]] = []
    for level in levels:
        members, middle = [level], level
        while runs and middle - runs[-1][1] < least * (len(members) + len(runs[-1][0])) / 2:
            members = runs.pop()[0] + members
            middle = sum(members) / len(members)
        runs.append((members, middle))
    return [
        middle + least * (place - (len(members) - 1) / 2) for members, middle in runs for place in range(len(members))
    ]
