"""Drawing of a prevailing torque nut with flange: the collar of the one above the flange of the other.

The figures of ISO 7043 and ISO 7044 leave the form of the collar to the manufacturer; one is drawn as an example.
"""

from __future__ import annotations

from ..svg import Point
from .flange_nut import flange_meets, flange_rim, flange_thickness
from .hexagon_nut import side_dimensions
from .nut_layout import ROW, NutSide, first_row, nut_document, placed, thread_in_section
from .pen import centre_line, edge, hatching
from .prevailing_torque_nut import collar, shoulder, thread_height
from .sizes import Sizes

_TALLEST = 30.0


def prevailing_torque_flange_nut(designation: str, sizes: Sizes) -> str:
    """Return the drawing as SVG, to scale but for the collar."""
    side = placed(sizes, _TALLEST)
    cut = _cut_face(side)
    section = [hatching(cut), edge(cut, close=True), *thread_in_section(side, (False, True))]
    parts = [
        *section,
        *_outside(side),
        *side_dimensions(side, first_row(side) + 2 * ROW),
        *flange_thickness(side),
        *thread_height(side, first_row(side) + ROW),
    ]
    name = "Prevailing torque nut with flange, the form of its collar an example,"
    return nut_document(designation, name, side, 3, *parts)


def _cut_face(side: NutSide) -> list[Point]:
    axis, hexagon, foot_x = side.axis, side.hexagon, shoulder(side)
    top, foot = collar(side)
    return [
        (side.left, axis - side.root),
        (side.left, axis - top),
        (foot_x, axis - foot),
        (foot_x + hexagon.set_back(hexagon.corner), axis - hexagon.corner),
        (flange_meets(side, hexagon.corner), axis - hexagon.corner),
        (flange_rim(side), axis - side.reach),
        (side.right, axis - side.reach),
        (side.right, axis - side.mouth),
        (side.right - side.sink, axis - side.root),
    ]


def _outside(side: NutSide) -> list[str]:
    axis, hexagon, radius, foot_x = side.axis, side.hexagon, side.reach, shoulder(side)
    top, foot = collar(side)
    corner, crown = flange_meets(side, hexagon.corner), flange_meets(side, hexagon.s / 2)
    chamfered = foot_x + hexagon.set_back(hexagon.corner)
    above = [(side.left, axis), (side.left, axis + top), (foot_x, axis + foot), (chamfered, axis + hexagon.corner)]
    under = [(corner, axis + hexagon.corner), (flange_rim(side), axis + radius), (side.right, axis + radius)]
    return [
        centre_line((side.left - 3, axis), (side.right + 3, axis)),
        edge([*above, *under, (side.right, axis)]),
        edge([(foot_x, axis), (foot_x, axis + foot)]),
        edge([(flange_rim(side), axis), (flange_rim(side), axis + radius)]),
        edge([(chamfered, axis + hexagon.corner / 2), (corner, axis + hexagon.corner / 2)]),
        *hexagon.lower_chamfer_curves(foot_x, axis, 1),
        *hexagon.lower_face_curves(axis, corner, crown),
    ]
