"""Drawing of a plain washer: in section, and along its axis.

The figures of ISO 7089 and ISO 7090 show the same symbols; ISO 128-3 for the section.
"""

from __future__ import annotations

from ..svg import Point, document
from .dimension import horizontal, vertical
from .pen import centre_cross, centre_line, circle, edge, hatching
from .sizes import DRAWN_AT, Sizes

_WIDTH, _TALLEST, _LEFT = 110.0, 40.0, 16.0
#: Where the diameters stand, right of the section.
_HOLE_AT, _OUTER_AT = 6.0, 27.0


def plain_washer(designation: str, sizes: Sizes) -> str:
    """Return the drawing as SVG, to scale."""
    scale = _TALLEST / sizes.size("outer_diameter")
    hole, outer = (scale * sizes.size(id) / 2 for id in ("inner_diameter", "outer_diameter"))
    left, axis = _LEFT, 4.0 + outer
    right, row = left + scale * sizes.size("thickness"), axis + outer + 10.5
    centre = (_WIDTH - 6.0 - outer, axis)
    return document(
        "part",
        _WIDTH,
        row + 5.0,
        f"{designation}: drawing of the part",
        f"Plain washer in section and along its axis, to scale. {DRAWN_AT} in {sizes.unit}.",
        *_section(left, right, axis, hole, outer),
        *_dimensions(sizes, (left, right), axis, (hole, outer), row),
        circle(centre, outer),
        circle(centre, hole),
        *centre_cross(centre, outer, outer),
    )


def _section(left: float, right: float, axis: float, hole: float, outer: float) -> list[str]:
    faces: list[list[Point]] = [
        [
            (left, axis + sign * hole),
            (left, axis + sign * outer),
            (right, axis + sign * outer),
            (right, axis + sign * hole),
        ]
        for sign in (-1, 1)
    ]
    rims = [[(x, axis - hole), (x, axis + hole)] for x in (left, right)]
    return [
        centre_line((left - 3, axis), (right + 3, axis)),
        *(hatching(face) + edge(face, close=True) for face in faces),
        *(edge(one) for one in rims),
    ]


def _dimensions(
    sizes: Sizes, faces: tuple[float, float], axis: float, radii: tuple[float, float], row: float
) -> list[str]:
    (left, right), (hole, outer) = faces, radii
    at, feet = (right, right), (axis + outer, axis + outer)
    return [
        vertical(sizes.label("inner_diameter"), axis - hole, axis + hole, right + _HOLE_AT, at),
        vertical(sizes.label("outer_diameter"), axis - outer, axis + outer, right + _OUTER_AT, at),
        horizontal(sizes.label("thickness"), left, right, row, feet),
    ]
