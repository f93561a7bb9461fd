"""Drawing of a control chart: location above spread, control limits, and what the run rules found.

ISO 7870-2:2013 (centre line CL, control limits UCL and LCL); the layout is our own. What matters shows by shape: a
point outside the limits is a diamond, the last point of a run a ring, and the run itself a bar below the points.
"""

from __future__ import annotations

from decimal import Decimal

from ...statistics import Chart, ControlChart, Signal
from ..drawings.pen import LETTER, lettering
from ..figures import unit_written, written
from ..names import capital
from ..svg import document
from .control_panel import MOST_POINTS, OUTSIDE, Panel, Window, diamond, limit_texts, ring, room_of_ticks
from .lettering import LINE, paragraph, room_of, widest
from .scale import Scale

WIDTH = 110.0
_MARGIN = 2.0
_HEIGHTS = (40.0, 26.0)
_NAMES = {
    "mean": "Means",
    "range": "Ranges",
    "standard_deviation": "Standard deviations",
    "individuals": "Single values",
    "moving_range": "Moving ranges of two",
}


def control_chart_drawing(found: ControlChart, title: str | None = None, unit: str | None = None) -> str:
    """Return the drawing of a control chart as SVG, in mm on paper. Points are numbered from 1."""
    window = Window.of(found)
    parts, top = paragraph(title or "Control chart", _MARGIN, 0.8, WIDTH - 2 * _MARGIN, LETTER * 1.2)
    left = _MARGIN + max(room_of_ticks(chart, window) for chart in found.charts) + 1.2
    right = WIDTH - _MARGIN - max(widest(limit_texts(chart)) for chart in found.charts) - 2.2
    across = Scale(window.first - 0.5, window.last + 0.5, left, right)
    marks = _letters(found.signals)
    for chart, height in zip(found.charts, _HEIGHTS, strict=True):
        heading = f"{_NAMES[chart.id]}{_of_size(found, chart)}{_in(unit)}"
        panel = Panel(chart, window, across, top + LINE + 2.0, height, found.signals, marks)
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


def _of_size(found: ControlChart, chart: Chart) -> str:
    return (
        f" of subgroups of {found.subgroup_size}" if chart.id == found.charts[0].id and found.subgroup_size > 1 else ""
    )


def _in(unit: str | None) -> str:
    return f", {unit_written(unit)}" if unit and unit_written(unit) else ""


def _letters(signals: tuple[Signal, ...]) -> dict[str, str]:
    """Return a letter for each run rule that fires."""
    rules = dict.fromkeys(signal.rule for signal in signals if signal.rule != OUTSIDE)
    return {rule: chr(ord("a") + at) for at, rule in enumerate(rules)}


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


def _legend(found: ControlChart, letters: dict[str, str], window: Window, top: float) -> tuple[list[str], float]:
    """Return what the shapes mean, each with the points that bear it, and the lower end."""
    parts: list[str] = []
    for one in found.signals:
        text = _signal_text(one, found, window)
        middle = top + LETTER * 0.64
        if one.rule == OUTSIDE:
            parts.append(diamond((_MARGIN + 2.0, middle)))
        else:
            parts += [ring((_MARGIN + 5.6, middle)), lettering(letters[one.rule], (_MARGIN + 1.2, top + LETTER))]
        lines, top = paragraph(text, _MARGIN + 8.5, top, WIDTH - 2 * _MARGIN - 8.5)
        parts += lines
    for text in _remarks(found, window):
        lines, top = paragraph(text, _MARGIN, top, WIDTH - 2 * _MARGIN)
        parts += lines
    return parts, top


def _signal_text(one: Signal, found: ControlChart, window: Window) -> str:
    half = next(chart for chart in found.charts if chart.id == one.chart)
    return f"{one.detail} ({_NAMES[one.chart].lower()}): {_listed([window.number(half, p) for p in one.points])}"


def _listed(numbers: list[int], most: int = 8) -> str:
    shown = ", ".join(map(str, numbers[:most]))
    return shown if len(numbers) <= most else f"{shown} and {len(numbers) - most} more"


def _remarks(found: ControlChart, window: Window) -> list[str]:
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
        lower, centre, upper = limit_texts(chart)
        sentences.append(f"{_NAMES[chart.id]}: {centre}, {lower}, {upper}.")
    window = Window.of(found)
    sentences += [f"{capital(_signal_text(one, found, window))}." for one in found.signals]
    return " ".join(sentences if found.signals else [*sentences, "No run rule fires."])
