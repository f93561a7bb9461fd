"""Drawing of a prevailing torque nut: a hexagon under a collar that holds the insert or is deformed itself.

The figures of ISO 7040 and ISO 7042 leave the form of the collar to the manufacturer; one is drawn as an example.
"""

from __future__ import annotations

from ..svg import Point
from .dimension import horizontal
from .hexagon_nut import side_dimensions
from .nut_layout import ROW, NutSide, first_row, nut_document, placed, thread_in_section
from .pen import centre_line, edge, hatching
from .sizes import Sizes

#: Height of the collar in parts of the whole height, and its slope; by eye.
_COLLAR, _TAPER = 0.22, 0.35


def prevailing_torque_nut(designation: str, sizes: Sizes) -> str:
    """Return the drawing as SVG, to scale but for the collar."""
    side = placed(sizes)
    cut = _cut_face(side)
    rows = 2 if "nut_height" in sizes and side.height_id != "nut_height" else 1
    section = [hatching(cut), edge(cut, close=True), *thread_in_section(side, (False, True))]
    parts = [
        *section,
        *_outside(side),
        *side_dimensions(side, first_row(side) + ROW * (rows - 1)),
        *thread_height(side, first_row(side)),
    ]
    return nut_document(designation, "Prevailing torque nut, the form of its collar an example,", side, rows, *parts)


def shoulder(side: NutSide) -> float:
    """Return the x where the hexagon begins."""
    return side.left + _COLLAR * (side.right - side.left)


def collar(side: NutSide) -> tuple[float, float]:
    """Return the radius of the collar at its top and where it leaves the hexagon."""
    foot = side.hexagon.chamfer_radius
    return foot - _TAPER * (shoulder(side) - side.left), foot


def _cut_face(side: NutSide) -> list[Point]:
    axis, hexagon, foot_x = side.axis, side.hexagon, shoulder(side)
    top, foot = collar(side)
    return [
        (side.left, axis - side.root),
        (side.left, axis - top),
        (foot_x, axis - foot),
        (foot_x + hexagon.set_back(hexagon.corner), axis - hexagon.corner),
        (side.right, axis - hexagon.corner),
        (side.right, axis - side.mouth),
        (side.right - side.sink, axis - side.root),
    ]


def _outside(side: NutSide) -> list[str]:
    axis, hexagon, foot_x = side.axis, side.hexagon, shoulder(side)
    top, foot = collar(side)
    chamfered = foot_x + hexagon.set_back(hexagon.corner)
    outline = [
        (side.left, axis),
        (side.left, axis + top),
        (foot_x, axis + foot),
        (chamfered, axis + hexagon.corner),
        (side.right, axis + hexagon.corner),
        (side.right, axis),
    ]
    return [
        centre_line((side.left - 3, axis), (side.right + 3, axis)),
        edge(outline),
        edge([(foot_x, axis), (foot_x, axis + foot)]),
        edge([(chamfered, axis + hexagon.corner / 2), (side.right, axis + hexagon.corner / 2)]),
        *hexagon.lower_chamfer_curves(foot_x, axis, 1),
    ]


def thread_height(side: NutSide, row: float) -> list[str]:
    """Return the height m of the thread, from the bearing face, where the standard gives it beside the whole height."""
    sizes, axis = side.sizes, side.axis
    if side.height_id == "nut_height" or "nut_height" not in sizes:
        return []
    start = side.right - side.on_paper("nut_height")
    feet = (axis + side.hexagon.corner, axis + side.hexagon.corner)
    return [horizontal(sizes.label("nut_height"), start, side.right, row, feet)]
