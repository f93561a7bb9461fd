"""Drawing of a hexagon nut: half in section from the side across corners, and along its axis.

The figures of ISO 4032 and ISO 8673 show the same symbols; ISO 6410-1 for the thread, ISO 128-3 for the section.
"""

from __future__ import annotations

from ..svg import Point
from .dimension import horizontal, vertical
from .nut_layout import NutSide, first_row, nut_document, placed, thread_in_section
from .pen import centre_line, edge, hatching
from .sizes import Sizes


def hexagon_nut(designation: str, sizes: Sizes) -> str:
    """Return the drawing as SVG, to scale."""
    side = placed(sizes)
    parts = [*_section(side), *_outside(side), *side_dimensions(side, first_row(side))]
    return nut_document(designation, "Hexagon nut", side, 1, *parts)


def _section(side: NutSide) -> list[str]:
    """The upper half, cut through two corners."""
    cut = _cut_face(side)
    return [hatching(cut), edge(cut, close=True), *thread_in_section(side)]


def _cut_face(side: NutSide) -> list[Point]:
    axis, hexagon, depth = side.axis, side.hexagon, side.sink
    thickness, washer = side.washer
    chamfered = side.left + hexagon.set_back(hexagon.corner)
    return [
        (side.left + depth, axis - side.root),
        (side.left, axis - side.mouth),
        (side.left, axis - hexagon.chamfer_radius),
        (chamfered, axis - hexagon.corner),
        (side.right - thickness, axis - hexagon.corner),
        (side.right - thickness, axis - washer),
        (side.right, axis - washer),
        (side.right, axis - side.mouth),
        (side.right - depth, axis - side.root),
    ]


def _outside(side: NutSide) -> list[str]:
    """The lower half, seen from outside."""
    axis, hexagon = side.axis, side.hexagon
    thickness, washer = side.washer
    chamfered, back = side.left + hexagon.set_back(hexagon.corner), side.right - thickness
    outline = [
        (side.left, axis),
        (side.left, axis + hexagon.chamfer_radius),
        (chamfered, axis + hexagon.corner),
        (back, axis + hexagon.corner),
        (back, axis),
    ]
    face = [(back, axis + washer), (side.right, axis + washer), (side.right, axis)]
    return [
        centre_line((side.left - 3, axis), (side.right + 3, axis)),
        edge(outline),
        edge(face),
        edge([(chamfered, axis + hexagon.corner / 2), (back, axis + hexagon.corner / 2)]),
        *hexagon.lower_chamfer_curves(side.left, axis, 1),
    ]


def side_dimensions(side: NutSide, row: float) -> list[str]:
    """Return the whole height in a row below the side view and dw right of it."""
    sizes, axis = side.sizes, side.axis
    washer = side.washer[1]
    feet = (axis + side.hexagon.chamfer_radius, axis + washer)
    parts = [horizontal(sizes.label(side.height_id), side.left, side.right, row, feet)]
    if "washer_face_diameter" in sizes:
        label = sizes.label("washer_face_diameter")
        parts.append(vertical(label, axis - washer, axis + washer, side.right + 6.0, (side.right, side.right)))
    return parts
