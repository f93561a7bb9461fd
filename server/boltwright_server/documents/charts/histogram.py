"""Drawing of a histogram: readings against the limits of the product, the acceptance limits, and their mean.

The layout is our own. The far side of a limit is hatched, acceptance limits are dashed, the mean is a chain line, so
that nothing depends on colour; the figures stand in a legend below, where they cannot run into bars or each other.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from ...statistics import Histogram
from ..drawings.deviation_chart import ACCENT, SHADE
from ..drawings.pen import INK, LETTER, THICK, THIN, hatching, lettering, thin
from ..figures import unit_written
from ..svg import Point, document, element, path
from .lettering import LINE, ending, paragraph, room_of, widest
from .scale import Scale, as_read, decimals_for, figure_written, stated

WIDTH = 110.0
_MARGIN = 2.0
_HEIGHT = 46.0
_HATCHED, _SAMPLE = 2.6, 8.5
_ACCEPTANCE, _MEAN = "2.4 1.2", "5 1 0.4 1"
Pair = tuple[Decimal | None, Decimal | None]


@dataclass(frozen=True, slots=True)
class Picture:
    """What is drawn: classes of readings, and what they are held against, all in `unit`."""

    classes: Histogram
    mean: float
    title: str = "Histogram"
    unit: str | None = None
    limits: Pair = (None, None)
    acceptance: Pair = (None, None)
    #: Figures and sentences below the legend.
    remarks: Sequence[str] = field(default_factory=tuple)

    @property
    def decimals(self) -> int | None:
        """Decimals of the mean: three digits of the reach of the readings."""
        return decimals_for(float(self.classes.edges[-1] - self.classes.edges[0]))

    @property
    def in_unit(self) -> str:
        """The unit behind a figure, or nothing."""
        name = unit_written(self.unit)
        return f" {name}" if name else ""

    @property
    def figures(self) -> list[float]:
        """Everything that must have its place on the scale."""
        ends = [float(end) for end in (*self.limits, *self.acceptance) if end is not None]
        return [float(self.classes.edges[0]), float(self.classes.edges[-1]), *ends]


def histogram_drawing(picture: Picture) -> str:
    """Return the drawing of a histogram as SVG, in mm on paper."""
    heading, top = paragraph(picture.title, _MARGIN, 0.8, WIDTH - 2 * _MARGIN, LETTER * 1.2)
    top += LINE + 2.0
    floor = top + _HEIGHT
    upright = Scale(0.0, float(picture.classes.counts.max()) * 1.05, floor, top)
    counts = upright.whole_ticks(5)
    left = _MARGIN + widest(map(figure_written, counts)) + 1.2
    across = Scale.around(picture.figures, left, WIDTH - _MARGIN, 0.05)
    width = figure_written(as_read(float(f"{picture.classes.width:.4g}")))
    parts = [lettering(f"Readings in classes of {width}{picture.in_unit}", (_MARGIN, top - 2.0))]
    parts += [_outside(picture.limits, across, top, floor), *_bars(picture.classes, across, upright)]
    parts += [thin([(left, top), (left, floor), (across.end, floor)])]
    for tick in counts:
        at = upright.at(float(tick))
        parts += [thin([(left - 0.8, at), (left, at)]), ending(figure_written(tick), left - 1.2, at + LETTER * 0.36)]
    parts += [*_lines(picture, across, top, floor), *_figures(across, floor)]
    legend, top = _legend(picture, floor + LETTER + 4.5)
    return document("histogram", WIDTH, top + 1.5, picture.title, description(picture), *heading, *parts, *legend)


def _bars(found: Histogram, across: Scale, upright: Scale) -> list[str]:
    parts = []
    for left, right, count in zip(found.edges[:-1], found.edges[1:], found.counts, strict=True):
        if count:
            x1, x2, y = across.at(float(left)), across.at(float(right)), upright.at(float(count))
            box = path([(x1, upright.start), (x1, y), (x2, y), (x2, upright.start)])
            parts.append(
                element("path", d=box, fill=ACCENT, fill_opacity=SHADE, stroke=INK, stroke_width=THIN, class_="bar")
            )
    return parts


def _outside(limits: Pair, across: Scale, top: float, floor: float) -> str:
    """Hatch the far side of each limit."""
    strips = []
    for limit, side in zip(limits, (-1, 1), strict=True):
        if limit is not None:
            x = across.at(float(limit))
            strips.append(
                hatching([(x, top), (x + side * _HATCHED, top), (x + side * _HATCHED, floor), (x, floor)], 1.6)
            )
    return "".join(strips)


def _lines(picture: Picture, across: Scale, top: float, floor: float) -> list[str]:
    held = (("limit", picture.limits), ("acceptance", picture.acceptance))
    ends = [(kind, end) for kind, pair in held for end in pair if end is not None]
    parts = [_upright(across.at(float(end)), top, floor, kind) for kind, end in ends]
    return [*parts, _upright(across.at(picture.mean), top - 1.2, floor, "mean")]


def _upright(x: float, top: float, floor: float, kind: str) -> str:
    return _line((x, top), (x, floor), kind)


def _line(start: Point, end: Point, kind: str) -> str:
    dashes = {"acceptance": _ACCEPTANCE, "mean": _MEAN}.get(kind)
    width = THICK if kind == "limit" else THIN * 1.4
    return element("path", d=path([start, end]), stroke=INK, stroke_width=width, stroke_dasharray=dashes, class_=kind)


def _figures(across: Scale, floor: float) -> list[str]:
    """Return the scale of the readings."""
    parts: list[str] = []
    edge, last = 0.0, WIDTH
    for tick in across.ticks(6):
        text, at = figure_written(tick), across.at(float(tick))
        parts.append(thin([(at, floor), (at, floor + 0.8)]))
        if at - room_of(text) / 2 > edge and at + room_of(text) / 2 < last:
            parts.append(lettering(text, (at, floor + LETTER + 1.4), "middle"))
            edge = at + room_of(text) / 2 + 1.0
    return parts


def _legend(picture: Picture, top: float) -> tuple[list[str], float]:
    """Return the lines with their figures, then the remarks, and the lower end."""
    parts: list[str] = []
    for kind, text in _entries(picture):
        parts.append(_sample(kind, top + LETTER * 0.64))
        lines, top = paragraph(text, _MARGIN + _SAMPLE + 1.5, top, WIDTH - 2 * _MARGIN - _SAMPLE - 1.5)
        parts += lines
    for text in picture.remarks:
        lines, top = paragraph(text, _MARGIN, top, WIDTH - 2 * _MARGIN)
        parts += lines
    return parts, top


def _sample(kind: str, middle: float) -> str:
    """Return a length of a line for the legend; the far side of a limit lies below."""
    left, right = _MARGIN, _MARGIN + _SAMPLE
    line = _line((left, middle), (right, middle), kind)
    if kind != "limit":
        return line
    return line + hatching([(left, middle), (right, middle), (right, middle + 1.6), (left, middle + 1.6)], 1.2)


def _entries(picture: Picture) -> list[tuple[str, str]]:
    named = [("limit", "limits", picture.limits), ("acceptance", "acceptance limits", picture.acceptance)]
    found = [(kind, f"{name}: {_limits(ends)}{picture.in_unit}") for kind, name, ends in named if ends != (None, None)]
    return [*found, ("mean", f"mean: {stated(picture.mean, picture.decimals)}{picture.in_unit}")]


def _limits(ends: Pair) -> str:
    low, high = (None if end is None else figure_written(end) for end in ends)
    return f"at most {high}" if low is None else f"at least {low}" if high is None else f"{low} to {high}"


def description(picture: Picture) -> str:
    """Return what the drawing shows, in words."""
    found = picture.classes
    fullest = int(found.counts.argmax())
    decimals = None if picture.decimals is None else picture.decimals + 1
    between = [stated(float(edge), decimals) for edge in found.edges[fullest : fullest + 2]]
    sentences = [
        f"{int(found.counts.sum())} readings in {len(found.counts)} classes; most, {int(found.counts[fullest])}, "
        f"between {between[0]} and {between[1]}."
    ]
    sentences += [f"{text[:1].upper()}{text[1:]}." for _, text in _entries(picture)]
    return " ".join(sentences)
