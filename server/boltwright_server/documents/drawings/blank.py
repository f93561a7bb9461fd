"""Drawing of a part before it is finished: cut wire, headed or extruded blank, slug, forged nut in section.

ISO 128-3 (views and sections), ISO 129-1 (dimensions). To scale; a step without a figure is left out.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from ..figures import written
from ..svg import Point, document
from ..symbols import Symbol
from .dimension import Label, horizontal, vertical
from .pen import centre_line, edge, hatching

_LONGEST, _TALLEST, _LEFT, _TOP = 84.0, 30.0, 8.0, 6.0


@dataclass(frozen=True, slots=True)
class Turned:
    """A stretch of a turned outline: its diameter and its length. `symbol` of none is not dimensioned."""

    diameter: Decimal
    length: Decimal
    symbol: str = ""


def blank_drawing(title: str, stretches: Sequence[Turned], total: Decimal | None, unit: str) -> str:
    """Return a solid blank from the side, its stretches from left to right; `total` is dimensioned below."""
    longest = float(sum(one.length for one in stretches))
    scale = min(_LONGEST / longest, _TALLEST / max(float(one.diameter) for one in stretches))
    axis = _TOP + scale * max(float(one.diameter) for one in stretches) / 2
    row = 2 * axis - _TOP + 9.0
    parts, x = [], _LEFT
    ends: list[tuple[float, float, Turned]] = []
    for one in stretches:
        half, end = scale * float(one.diameter) / 2, x + scale * float(one.length)
        parts.append(edge([(x, axis - half), (end, axis - half), (end, axis + half), (x, axis + half)], close=True))
        ends.append((end, half, one))
        x = end
    at = x + 6.0
    for end, half, one in ends:
        if one.symbol:
            label = Label(one.symbol, Symbol.of(one.symbol), (written(one.diameter),))
            parts.append(vertical(label, axis - half, axis + half, at, (end, end)))
            at += label.width + 8.0
    if total is not None:
        length = Label("length", Symbol("l"), (written(total),))
        parts.append(horizontal(length, _LEFT, x, row, (axis + ends[0][1], axis + ends[-1][1])))
    centre = centre_line((_LEFT - 3, axis), (x + 3, axis))
    text = f"The blank from the side, to scale, in {unit}."
    return document("blank", at, row + 5.0, f"{title}: drawing of the blank", text, centre, *parts)


def bored_drawing(
    title: str, outer: Decimal, bore: Decimal, height: Decimal, names: Mapping[str, str], unit: str
) -> str:
    """Return a blank with a bore in section, its axis lying; `names` are the symbols of outer, bore and height."""
    scale = min(_LONGEST / float(height), _TALLEST / float(outer))
    half, hole, width = scale * float(outer) / 2, scale * float(bore) / 2, scale * float(height)
    axis, right = _TOP + half, _LEFT + width
    faces: list[list[Point]] = [
        [
            (_LEFT, axis + sign * hole),
            (_LEFT, axis + sign * half),
            (right, axis + sign * half),
            (right, axis + sign * hole),
        ]
        for sign in (-1, 1)
    ]
    rims = [edge([(x, axis - hole), (x, axis + hole)]) for x in (_LEFT, right)]
    labels = [
        (Label(name, Symbol.of(names[name]), (written(value),)), radius)
        for name, value, radius in (("bore", bore, hole), ("outer", outer, half))
    ]
    at = right + 6.0
    upright = []
    for label, radius in labels:
        upright.append(vertical(label, axis - radius, axis + radius, at, (right, right)))
        at += label.width + 8.0
    row = axis + half + 9.0
    length = Label("height", Symbol.of(names["height"]), (written(height),))
    return document(
        "blank",
        at,
        row + 5.0,
        f"{title}: drawing of the blank",
        f"The blank in section across its flats, to scale, in {unit}; bore as for the tap.",
        centre_line((_LEFT - 3, axis), (right + 3, axis)),
        *(hatching(face) + edge(face, close=True) for face in faces),
        *rims,
        *upright,
        horizontal(length, _LEFT, right, row, (axis + half, axis + half)),
    )
