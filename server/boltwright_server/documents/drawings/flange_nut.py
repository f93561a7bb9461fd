"""Drawing of a hexagon nut with flange: half in section from the side across corners, and along its axis.

The figure of ISO 4161 shows the same symbols.
"""

from __future__ import annotations

from ..svg import Point
from .dimension import horizontal
from .hexagon import FLANGE_SLOPE
from .hexagon_nut import side_dimensions
from .nut_layout import ROW, NutSide, first_row, nut_document, placed, thread_in_section
from .pen import centre_line, edge, hatching
from .sizes import Sizes

#: Smaller than a plain nut: the leaders need room beside the flange.
_TALLEST = 30.0


def flange_nut(designation: str, sizes: Sizes) -> str:
    """Return the drawing as SVG, to scale."""
    side = placed(sizes, _TALLEST)
    cut = _cut_face(side)
    section = [hatching(cut), edge(cut, close=True), *thread_in_section(side)]
    parts = [*section, *_outside(side), *side_dimensions(side, first_row(side) + ROW), *flange_thickness(side)]
    return nut_document(designation, "Hexagon nut with flange", side, 2, *parts)


def flange_rim(side: NutSide) -> float:
    """Return the x where the rim of the flange ends."""
    return side.right - side.on_paper("flange_thickness")


def flange_meets(side: NutSide, radius: float) -> float:
    """Return the x at which the upper face of the flange has a radius."""
    return flange_rim(side) - (side.reach - radius) * FLANGE_SLOPE


def _cut_face(side: NutSide) -> list[Point]:
    axis, hexagon, depth = side.axis, side.hexagon, side.sink
    return [
        (side.left + depth, axis - side.root),
        (side.left, axis - side.mouth),
        (side.left, axis - hexagon.chamfer_radius),
        (side.left + hexagon.set_back(hexagon.corner), axis - hexagon.corner),
        (flange_meets(side, hexagon.corner), axis - hexagon.corner),
        (flange_rim(side), axis - side.reach),
        (side.right, axis - side.reach),
        (side.right, axis - side.mouth),
        (side.right - depth, axis - side.root),
    ]


def _outside(side: NutSide) -> list[str]:
    axis, hexagon, radius = side.axis, side.hexagon, side.reach
    corner, crown = flange_meets(side, hexagon.corner), flange_meets(side, hexagon.s / 2)
    chamfered = side.left + hexagon.set_back(hexagon.corner)
    top = [(side.left, axis), (side.left, axis + hexagon.chamfer_radius), (chamfered, axis + hexagon.corner)]
    under = [(corner, axis + hexagon.corner), (flange_rim(side), axis + radius), (side.right, axis + radius)]
    return [
        centre_line((side.left - 3, axis), (side.right + 3, axis)),
        edge([*top, *under, (side.right, axis)]),
        edge([(flange_rim(side), axis), (flange_rim(side), axis + radius)]),
        edge([(chamfered, axis + hexagon.corner / 2), (corner, axis + hexagon.corner / 2)]),
        *hexagon.lower_chamfer_curves(side.left, axis, 1),
        *hexagon.lower_face_curves(axis, corner, crown),
    ]


def flange_thickness(side: NutSide) -> list[str]:
    """Return the thickness of the flange as a dimension, where the standard gives it."""
    sizes, axis, radius = side.sizes, side.axis, side.reach
    if "flange_thickness" not in sizes:
        return []
    feet = (axis + radius, axis + radius)
    return [horizontal(sizes.label("flange_thickness"), flange_rim(side), side.right, first_row(side), feet)]
