"""Lines, arrows and lettering of a technical drawing; everything in millimetres on paper.

ISO 128-2:2020 (line types and widths), ISO 3098-1 (lettering), ISO 129-1 (arrows).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sin

from ..svg import Number, Point, element, number, path, words
from ..symbols import Symbol

#: Visible edges and thread limits are thick; dimension, extension, centre lines, hatching and thread roots are thin.
THICK, THIN = 0.7, 0.35
INK = "currentColor"
PAPER = "var(--paper, Canvas)"
LETTER = 3.2
ARROW_LENGTH, _ARROW_HALF_WIDTH = 2.6, 0.42
#: Long dash, gap, dot, gap of a centre line of width 0.35.
_CHAIN = "8.4 1.05 0.2 1.05"
#: Dash and gap of a hidden edge of width 0.35.
_DASHES = "2.1 1.05"
#: Advance widths in parts of the letter height, for placing only: a sans-serif with tabular figures.
_WIDTHS = {".": 0.278, " ": 0.278, "f": 0.278, "l": 0.222, "r": 0.333, "m": 0.833, "w": 0.722, "(": 0.333, ")": 0.333}
_WIDTH, _CAPITAL = 0.556, 0.722
_SUBSCRIPT = 0.72


def edge(points: Sequence[Point], close: bool = False) -> str:
    """Return a visible edge through points."""
    return _stroke(path(points, close), THICK)


def curve(data: str) -> str:
    """Return a visible edge along path data."""
    return _stroke(data, THICK)


def thin(points: Sequence[Point], close: bool = False) -> str:
    """Return a thin continuous line through points."""
    return _stroke(path(points, close), THIN)


def thin_curve(data: str) -> str:
    """Return a thin continuous line along path data."""
    return _stroke(data, THIN)


def centre_line(start: Point, end: Point) -> str:
    """Return a thin chain line."""
    return _stroke(path([start, end]), THIN, _CHAIN)


def centre_cross(centre: Point, half_width: Number, half_height: Number) -> list[str]:
    """Return the two centre lines of a view along the axis, a little longer than the part."""
    x, y = centre
    across, up = half_width + 3, half_height + 3
    return [centre_line((x - across, y), (x + across, y)), centre_line((x, y - up), (x, y + up))]


def hidden(points: Sequence[Point]) -> str:
    """Return a thin dashed line through points: a hidden edge (ISO 128-2, line 02.1), or what is not there yet."""
    return _stroke(path(points), THIN, _DASHES)


def circle(centre: Point, radius: Number, width: Number = THICK) -> str:
    """Return a circle."""
    return element("circle", cx=centre[0], cy=centre[1], r=radius, stroke=INK, stroke_width=width)


def three_quarters(centre: Point, radius: Number) -> str:
    """Return a thread seen along its axis where the other diameter is thick (ISO 6410-1: part of a thin circle)."""
    x, y = centre
    first, last = ((x + radius * cos(radians(at)), y + radius * sin(radians(at))) for at in (100, 10))
    turn = f"A{number(radius)} {number(radius)} 0 1 1 {number(last[0])} {number(last[1])}"
    return _stroke(f"M{number(first[0])} {number(first[1])}{turn}", THIN)


def _stroke(data: str, width: Number, dashes: str | None = None) -> str:
    return element("path", d=data, stroke=INK, stroke_width=width, stroke_dasharray=dashes, stroke_linejoin="round")


def arrow(tip: Point, dx: int, dy: int) -> str:
    """Return a filled arrowhead whose tip points in the direction (dx, dy), one of them 0 and the other 1 or -1."""
    x, y = tip
    back_x, back_y = x - dx * ARROW_LENGTH, y - dy * ARROW_LENGTH
    aside_x, aside_y = dy * _ARROW_HALF_WIDTH, dx * _ARROW_HALF_WIDTH
    corners = [(x, y), (back_x + aside_x, back_y + aside_y), (back_x - aside_x, back_y - aside_y)]
    return element("path", d=path(corners, close=True), fill=INK)


def width_of(text: str, height: float = LETTER) -> float:
    """Return about how wide a text is."""
    return height * sum(_WIDTHS.get(letter, _CAPITAL if letter.isupper() else _WIDTH) for letter in text)


def lettering(text: str, at: Point, anchor: str = "start", height: float = LETTER) -> str:
    """Return text on a base line."""
    return element("text", words(text), x=at[0], y=at[1], text_anchor=anchor, font_size=height, fill=INK)


def symbol_width(symbol: Symbol) -> float:
    """Return about how wide a symbol is."""
    return width_of(symbol.letter) + width_of(symbol.subscript, LETTER * _SUBSCRIPT)


def symbol_lettering(symbol: Symbol, at: Point) -> str:
    """Return a symbol with its subscript, on a base line."""
    below = element("tspan", words(symbol.subscript), dy=0.8, font_size=LETTER * _SUBSCRIPT) if symbol.subscript else ""
    style = "italic" if symbol.italic else None
    letter = element("tspan", words(symbol.letter), font_style=style)
    return element("text", letter, below, x=at[0], y=at[1], font_size=LETTER, fill=INK)


def hatching(outline: Sequence[Point], spacing: float = 2.5) -> str:
    """Return thin lines at 45 degrees inside a closed outline (ISO 128-3: the cut face of a section)."""
    # Along a line of 45 degrees x + y is constant: cross it with each side, then join the crossings in pairs.
    sums = [x + y for x, y in outline]
    data = []
    level = min(sums) + spacing
    while level < max(sums):
        crossings = sorted(_crossings(outline, level))
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            data.append(f"M{number(start)} {number(level - start)}L{number(end)} {number(level - end)}")
        level += spacing
    return _stroke("".join(data), THIN / 2)


def _crossings(outline: Sequence[Point], level: float) -> list[float]:
    """Return the x where the line x + y = level crosses the sides of an outline."""
    found = []
    for (x1, y1), (x2, y2) in zip(outline, [*outline[1:], outline[0]], strict=True):
        before, after = x1 + y1 - level, x2 + y2 - level
        if (before < 0) != (after < 0):
            found.append(x1 + (x2 - x1) * before / (before - after))
    return found
