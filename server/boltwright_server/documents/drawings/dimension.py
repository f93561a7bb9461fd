"""Dimensions of a drawing: extension lines, dimension line, arrows, and the symbol with its limits.

ISO 129-1:2018 (presentation), ISO 14405-1:2016 (the upper limit of size stands above the lower one).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ...quantities import Bounds
from ..figures import written
from ..svg import element
from ..symbols import Symbol
from .pen import ARROW_LENGTH, INK, LETTER, THIN, arrow, lettering, symbol_lettering, symbol_width, thin, width_of

#: id of a characteristic -> where its figure leads; empty for a drawing on its own.
Links = Mapping[str, str]
_GAP, _BEYOND = 0.8, 1.6
_LINE_PITCH = 3.6
_TAIL = 2 * ARROW_LENGTH


@dataclass(frozen=True, slots=True)
class Label:
    """The symbol of a characteristic with one or two figures; the upper limit first."""

    id: str
    symbol: Symbol
    figures: tuple[str, ...]
    href: str | None = None

    @classmethod
    def of(cls, id: str, limits: Bounds, links: Links) -> Label:
        """Return the label of limits; a figure for reference stands in brackets."""
        return cls(id, Symbol.of(limits.symbol), _figures(limits), links.get(id))

    @property
    def width(self) -> float:
        """Millimetres on paper, about."""
        return symbol_width(self.symbol) + LETTER * 0.35 + max(map(width_of, self.figures), default=0)

    @property
    def height(self) -> float:
        """Millimetres on paper."""
        return LETTER + _LINE_PITCH * (len(self.figures) - 1)

    def drawn(self, left: float, middle: float) -> str:
        """Return the lettering, from `left` and around the height `middle`."""
        base = middle + LETTER * 0.36
        figures_at = left + symbol_width(self.symbol) + LETTER * 0.35
        first = base - _LINE_PITCH * (len(self.figures) - 1) / 2
        body = symbol_lettering(self.symbol, (left, base)) + "".join(
            lettering(figure, (figures_at, first + _LINE_PITCH * line)) for line, figure in enumerate(self.figures)
        )
        return element("a", body, href=self.href, tabindex="-1") if self.href else body


def _figures(limits: Bounds) -> tuple[str, ...]:
    if limits.min is not None and limits.max is not None:
        return (written(limits.max), written(limits.min))
    if limits.min is not None:
        return (f"≥ {written(limits.min)}",)
    if limits.max is not None:
        return (f"≤ {written(limits.max)}",)
    return (f"({written(limits.nominal)})",) if limits.nominal is not None else ()


def horizontal(label: Label, x1: float, x2: float, y: float, feet: tuple[float, float], outside: int = 1) -> str:
    """Return a dimension from x1 to x2 at height y.

    `feet` are the heights at which the extension lines start; `outside` is the side, 1 right or -1 left, to which the
    label moves where it does not fit above the line.
    """
    inside = x2 - x1 >= 2 * ARROW_LENGTH + 1
    fits = label.width <= x2 - x1 - 1
    parts = [_extension_down(x1, feet[0], y), _extension_down(x2, feet[1], y), _measure((x1, y), (x2, y))]
    parts += [arrow((x1, y), -1 if inside else 1, 0), arrow((x2, y), 1 if inside else -1, 0)]
    tails = [] if inside else [-1, 1]
    if not fits and outside not in tails:
        tails.append(outside)
    parts += [thin([(end, y), (end + side * _TAIL, y)]) for side in tails for end in (x1 if side < 0 else x2,)]
    if fits:
        parts.append(label.drawn((x1 + x2 - label.width) / 2, y - label.height / 2 - 0.8))
    elif outside > 0:
        parts.append(label.drawn(x2 + _TAIL + 0.8, y))
    else:
        parts.append(label.drawn(x1 - _TAIL - 0.8 - label.width, y))
    return _group(label, parts)


def vertical(label: Label, y1: float, y2: float, x: float, feet: tuple[float, float]) -> str:
    """Return a dimension from y1 down to y2 at x, its label at the right; `feet` start the extension lines."""
    parts = [_extension_across(y1, feet[0], x), _extension_across(y2, feet[1], x)]
    parts += [*_upright(x, y1, y2), label.drawn(x + 1.4, (y1 + y2) / 2)]
    return _group(label, parts)


def left_of(label: Label, ends: tuple[float, float], x: float, feet: tuple[float, float], label_at: float) -> str:
    """Return a dimension at x, left of a part; its line runs on to the label at its left at height `label_at`."""
    y1, y2 = ends
    run_on = (
        [(x, y2), (x, label_at + label.height / 2)] if label_at > y2 else [(x, y1), (x, label_at - label.height / 2)]
    )
    lines = [_extension_across(y1, feet[0], x), _extension_across(y2, feet[1], x), *_upright(x, y1, y2), thin(run_on)]
    return _group(label, [*lines, label.drawn(x - 1.2 - label.width, label_at)])


def across(label: Label, y1: float, y2: float, x: float, label_at: float) -> str:
    """Return a dimension inside a part from y1 down to y2 at x; its line runs on to the label at height `label_at`."""
    run_on = (
        [(x, y2), (x, label_at + label.height / 2)] if label_at > y2 else [(x, y1), (x, label_at - label.height / 2)]
    )
    return _group(label, [*_upright(x, y1, y2), thin(run_on), label.drawn(x + 1.2, label_at)])


def leader(label: Label, tip: tuple[float, float], elbow: tuple[float, float]) -> str:
    """Return a leader line from a place of the part to a label left of its elbow."""
    dot = element("circle", cx=tip[0], cy=tip[1], r=0.5, fill=INK)
    shelf = (elbow[0] - 2.0, elbow[1])
    return _group(label, [dot, thin([tip, elbow, shelf]), label.drawn(shelf[0] - 0.8 - label.width, elbow[1])])


def _upright(x: float, y1: float, y2: float) -> list[str]:
    if y2 - y1 >= 2 * ARROW_LENGTH + 1:
        return [_measure((x, y1), (x, y2)), arrow((x, y1), 0, -1), arrow((x, y2), 0, 1)]
    tails = [thin([(x, y1), (x, y1 - _TAIL)]), thin([(x, y2), (x, y2 + _TAIL)])]
    return [_measure((x, y1), (x, y2)), *tails, arrow((x, y1), 0, 1), arrow((x, y2), 0, -1)]


def _measure(start: tuple[float, float], end: tuple[float, float]) -> str:
    """Return the dimension line: what is between its ends is the size, at the scale of the drawing."""
    return element(
        "line",
        x1=start[0],
        y1=start[1],
        x2=end[0],
        y2=end[1],
        stroke=INK,
        stroke_width=THIN,
        class_="measure",
    )


def _extension_down(x: float, foot: float, y: float) -> str:
    side = 1 if y > foot else -1
    return thin([(x, foot + side * _GAP), (x, y + side * _BEYOND)])


def _extension_across(y: float, foot: float, x: float) -> str:
    side = 1 if x > foot else -1
    return thin([(foot + side * _GAP, y), (x + side * _BEYOND, y)])


def _group(label: Label, parts: list[str]) -> str:
    return element("g", *parts, data_figure=label.id)
