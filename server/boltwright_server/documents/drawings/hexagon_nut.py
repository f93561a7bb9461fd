"""Drawing of a hexagon nut: half in section from the side across corners, and along its axis.

The figures of ISO 4032 and ISO 8673 show the same symbols; ISO 6410-1 for the thread, ISO 128-3 for the section.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, sqrt

from ..svg import Point, document, number
from .dimension import horizontal, leader, vertical
from .hexagon import Hexagon
from .pen import THICK, centre_line, circle, edge, hatching, thin, thin_curve
from .sizes import Sizes

_WIDTH = 110.0
_TALLEST, _LONGEST = 34.0, 30.0
_LEFT = 5.0
#: Depth of a 120 degree countersink in parts of its radial width.
_COUNTERSINK = 1 / sqrt(3)
_DIAGONAL = 1 / sqrt(2)


@dataclass(frozen=True, slots=True)
class _Side:
    """Where the side view lies: its left face, its bearing face at the right and its axis, on paper."""

    sizes: Sizes
    scale: float
    left: float
    axis: float

    @property
    def hexagon(self) -> Hexagon:
        return Hexagon(self.scale * self.sizes.size("width_across_flats"))

    @property
    def right(self) -> float:
        return self.left + self.scale * self.sizes.size("nut_height")

    @property
    def major(self) -> float:
        """Radius of the thread's major diameter."""
        return self.scale * self.sizes.d / 2

    @property
    def minor(self) -> float:
        """Radius of the thread's minor diameter, the hole."""
        return self.scale * self.sizes.root / 2

    @property
    def mouth(self) -> float:
        """Radius of the countersink at both faces."""
        if "bearing_face_inner_diameter" not in self.sizes:
            return self.major
        return self.scale * self.sizes.size("bearing_face_inner_diameter") / 2

    @property
    def washer(self) -> tuple[float, float]:
        """Thickness and radius of the washer face."""
        thickness = self.sizes.size("washer_face_thickness") if "washer_face_thickness" in self.sizes else 0.0
        if "washer_face_diameter" not in self.sizes:
            return 0.0, self.hexagon.chamfer_radius
        return self.scale * thickness, self.scale * self.sizes.size("washer_face_diameter") / 2


def hexagon_nut(designation: str, sizes: Sizes) -> str:
    """Return the drawing as SVG, to scale."""
    corner = Hexagon(sizes.size("width_across_flats")).corner
    scale = min(_TALLEST / corner / 2, _LONGEST / sizes.size("nut_height"))
    side = _Side(sizes, scale, _LEFT, 4.0 + scale * corner)
    hexagon = side.hexagon
    centre = (_WIDTH - 20.0 - hexagon.s / 2, side.axis)
    row = side.axis + hexagon.corner + 10.5
    return document(
        "part",
        _WIDTH,
        row + 4.0,
        f"{designation}: drawing of the part",
        "Hexagon nut from the side across corners, upper half in section, and along its axis, to scale. Each size is "
        f"drawn at its nominal value, else at the middle of its limits, else at its only limit; in {sizes.unit}.",
        *_section(side),
        *_outside(side),
        *_side_dimensions(side, row),
        *_view_along(side, centre),
        *_view_dimensions(side, centre, row),
    )


def _section(side: _Side) -> list[str]:
    """The upper half, cut through two corners."""
    depth = (side.mouth - side.minor) * _COUNTERSINK
    root = depth * (side.mouth - side.major) / (side.mouth - side.minor) if side.mouth > side.minor else 0.0
    cut = _cut_face(side, depth)
    rim = [[(x, side.axis), (x, side.axis - side.mouth)] for x in (side.left, side.right)]
    throat = [[(x, side.axis), (x, side.axis - side.minor)] for x in (side.left + depth, side.right - depth)]
    thread = [(side.left + root, side.axis - side.major), (side.right - root, side.axis - side.major)]
    return [hatching(cut), edge(cut, close=True), *(edge(one) for one in [*rim, *throat]), thin(thread)]


def _cut_face(side: _Side, depth: float) -> list[Point]:
    axis, hexagon = side.axis, side.hexagon
    thickness, washer = side.washer
    chamfered = side.left + hexagon.set_back(hexagon.corner)
    return [
        (side.left + depth, axis - side.minor),
        (side.left, axis - side.mouth),
        (side.left, axis - hexagon.chamfer_radius),
        (chamfered, axis - hexagon.corner),
        (side.right - thickness, axis - hexagon.corner),
        (side.right - thickness, axis - washer),
        (side.right, axis - washer),
        (side.right, axis - side.mouth),
        (side.right - depth, axis - side.minor),
    ]


def _outside(side: _Side) -> list[str]:
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


def _side_dimensions(side: _Side, row: float) -> list[str]:
    sizes, axis = side.sizes, side.axis
    washer = side.washer[1]
    feet = (axis + side.hexagon.chamfer_radius, axis + washer)
    parts = [horizontal(sizes.label("nut_height"), side.left, side.right, row, feet)]
    if "washer_face_diameter" in sizes:
        label = sizes.label("washer_face_diameter")
        parts.append(vertical(label, axis - washer, axis + washer, side.right + 6.0, (side.right, side.right)))
    return parts


def _view_along(side: _Side, centre: Point) -> list[str]:
    """Hexagon, hole (thick) and major diameter (thin, three quarters of a circle)."""
    x, y = centre
    start, end = radians(100), radians(10)
    first = (x + side.major * cos(start), y + side.major * sin(start))
    last = (x + side.major * cos(end), y + side.major * sin(end))
    radius = number(side.major)
    arc = f"M{number(first[0])} {number(first[1])}A{radius} {radius} 0 1 1 {number(last[0])} {number(last[1])}"
    return [*side.hexagon.along(centre), circle(centre, side.minor, THICK), thin_curve(arc)]


def _view_dimensions(side: _Side, centre: Point, row: float) -> list[str]:
    sizes, hexagon, (x, y) = side.sizes, side.hexagon, centre
    half, corner = hexagon.s / 2, hexagon.corner
    flats = (y + corner / 2, y + corner / 2)
    parts = [horizontal(sizes.label("width_across_flats"), x - half, x + half, row, flats)]
    if "width_across_corners" in sizes:
        parts.append(vertical(sizes.label("width_across_corners"), y - corner, y + corner, x + half + 4, (x, x)))
    for id, radius, sign in (("thread_major_diameter", side.major, -1), ("thread_minor_diameter", side.minor, 1)):
        tip = (x - radius * _DIAGONAL, y + sign * radius * _DIAGONAL)
        parts.append(leader(sizes.label(id), tip, (x - half - 2.0, y + sign * (corner - 2.0))))
    return parts
