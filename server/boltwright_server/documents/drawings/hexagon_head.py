"""Hexagon heads of bolts and screws, plain and with flange.

The figures of ISO 4014, ISO 4017, ISO 8765 and ISO 8676, and for the flange of ISO 4162 and ISO 15071, show the same
symbols.
"""

from __future__ import annotations

from ..svg import Point
from .bolt_layout import Head, Side
from .dimension import horizontal, vertical
from .hexagon import FLANGE_SLOPE, Hexagon
from .pen import circle, edge
from .sizes import Sizes


def _corner(sizes: Sizes) -> float:
    return Hexagon(sizes.size("width_across_flats")).corner


def _flange(sizes: Sizes) -> float:
    return sizes.size("flange_diameter") / 2


def hexagon_view(side: Side, centre: Point, reach: float) -> list[str]:
    """Return the hexagon along its axis with s and e; `reach` is half the breadth of the whole view."""
    hexagon, sizes, (x, y) = side.hexagon, side.sizes, centre
    half, corner = hexagon.s / 2, hexagon.corner
    parts = hexagon.along(centre)
    flats = (y + corner / 2, y + corner / 2)
    parts.append(horizontal(sizes.label("width_across_flats"), x - half, x + half, y + reach + 10.5, flats))
    if "width_across_corners" in sizes:
        parts.append(vertical(sizes.label("width_across_corners"), y - corner, y + corner, x + reach + 6, (x, x)))
    return parts


def _plain_view(side: Side, centre: Point) -> list[str]:
    return hexagon_view(side, centre, side.hexagon.corner)


def _plain(side: Side) -> list[str]:
    hexagon, axis = side.hexagon, side.axis
    thickness, washer = side.washer
    back = side.bearing - thickness
    chamfered = side.head + hexagon.set_back(hexagon.corner)
    corner, flat = hexagon.corner, hexagon.chamfer_radius
    outline = [
        (back, axis - corner),
        (chamfered, axis - corner),
        (side.head, axis - flat),
        (side.head, axis + flat),
        (chamfered, axis + corner),
        (back, axis + corner),
    ]
    face = [(back, axis - washer), (side.bearing, axis - washer), (side.bearing, axis + washer), (back, axis + washer)]
    edges = [[(chamfered, axis + half), (back, axis + half)] for half in (-corner / 2, corner / 2)]
    return [
        edge(outline, close=True),
        edge(face),
        *(edge(one) for one in edges),
        *hexagon.chamfer_curves(side.head, axis, 1),
    ]


def _with_flange(side: Side) -> list[str]:
    """The hexagon stands on a cone; each of its faces cuts the cone in an arc."""
    hexagon, axis, radius = side.hexagon, side.axis, side.reach
    rim = side.bearing - side.on_paper("flange_thickness")
    foot, crown = (rim - (radius - at) * FLANGE_SLOPE for at in (hexagon.corner, hexagon.s / 2))
    chamfered = side.head + hexagon.set_back(hexagon.corner)
    corner, flat = hexagon.corner, hexagon.chamfer_radius
    top = [(foot, axis - corner), (chamfered, axis - corner), (side.head, axis - flat)]
    under = [(foot, axis - corner), (rim, axis - radius), (side.bearing, axis - radius)]
    edges = [[(chamfered, axis + half), (foot, axis + half)] for half in (-corner / 2, corner / 2)]
    return [
        edge([*top, *_mirrored(top, axis)]),
        edge([*under, *_mirrored(under, axis)]),
        edge([(rim, axis - radius), (rim, axis + radius)]),
        *(edge(one) for one in edges),
        *hexagon.chamfer_curves(side.head, axis, 1),
        *hexagon.face_curves(axis, foot, crown),
    ]


def _mirrored(points: list[Point], axis: float) -> list[Point]:
    return [(x, 2 * axis - y) for x, y in reversed(points)]


def _flange_view(side: Side, centre: Point) -> list[str]:
    return [*hexagon_view(side, centre, side.reach), circle(centre, side.reach)]


HEXAGON = Head("Hexagon head bolt", _corner, _plain, _plain_view, _corner)
FLANGE = Head("Hexagon bolt with flange", _flange, _with_flange, _flange_view, _flange, diameters=("flange_diameter",))
