"""Where the views of a nut lie on paper, and the view along its axis, the same for every nut.

ISO 6410-1 for the thread: seen along the axis its root is three quarters of a thin circle.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from ..svg import Point, document
from .dimension import horizontal, leader, vertical
from .pen import THICK, circle, edge, thin, three_quarters
from .scaled import Scaled
from .sizes import DRAWN_AT, Sizes

WIDTH = 110.0
#: From one row of dimensions below to the next.
ROW = 10.5
_TALLEST, _LONGEST = 34.0, 30.0
_LEFT = 5.0
#: Depth of a 120 degree countersink in parts of its radial width.
_COUNTERSINK = 1 / sqrt(3)
_DIAGONAL = 1 / sqrt(2)
#: The limit of a height that a nut is drawn with, the whole height first.
_HEIGHTS = ("nut_overall_height", "nut_height")


@dataclass(frozen=True, slots=True)
class NutSide(Scaled):
    """The side view: its left face, its bearing face at the right and its axis, on paper."""

    left: float
    axis: float

    @property
    def reach(self) -> float:
        """Half the breadth of the nut: of its flange, or across its corners."""
        return max(self.hexagon.corner, self.on_paper("flange_diameter") / 2)

    @property
    def height_id(self) -> str:
        """The id of the whole height."""
        return height_id(self.sizes)

    @property
    def right(self) -> float:
        """The x of the bearing face."""
        return self.left + self.on_paper(self.height_id)

    @property
    def mouth(self) -> float:
        """Radius of the countersink."""
        return self.on_paper("bearing_face_inner_diameter") / 2 or self.radius

    @property
    def sink(self) -> float:
        """Depth of the countersink."""
        return (self.mouth - self.root) * _COUNTERSINK

    @property
    def washer(self) -> tuple[float, float]:
        """Thickness and radius of the washer face."""
        if "washer_face_diameter" not in self.sizes:
            return 0.0, self.hexagon.chamfer_radius
        return self.on_paper("washer_face_thickness"), self.on_paper("washer_face_diameter") / 2


def height_id(sizes: Sizes) -> str:
    """Return the id of the whole height of a nut."""
    return next(id for id in _HEIGHTS if id in sizes)


def placed(sizes: Sizes, tallest: float = _TALLEST) -> NutSide:
    """Return the side view at the largest scale that the paper holds."""
    unit = NutSide(sizes, 1.0, 0.0, 0.0)
    scale = min(tallest / unit.reach / 2, _LONGEST / unit.right)
    return NutSide(sizes, scale, _LEFT, 4.0 + scale * unit.reach)


def nut_document(designation: str, name: str, side: NutSide, rows: int, *parts: str) -> str:
    """Return the drawing with the view along the axis; `rows` rows of dimensions stand below the side view."""
    centre = (WIDTH - 20.0 - side.reach, side.axis)
    row = first_row(side)
    return document(
        "part",
        WIDTH,
        row + ROW * (rows - 1) + 4.0,
        f"{designation}: drawing of the part",
        f"{name} from the side across corners, upper half in section, and along its axis, to scale. {DRAWN_AT} in "
        f"{side.sizes.unit}.",
        *parts,
        *_view_along(side, centre),
        *_view_dimensions(side, centre, row),
    )


def first_row(side: NutSide) -> float:
    """Return the y of the first row of dimensions below."""
    return side.axis + side.reach + 10.5


def thread_in_section(side: NutSide, sunk: tuple[bool, bool] = (True, True), left: float | None = None) -> list[str]:
    """Return rims, throats and thread of the upper half; `sunk` says which ends, left and right, are countersunk."""
    first = side.left if left is None else left
    depths = [side.sink if one else 0.0 for one in sunk]
    rims = [side.mouth if one else side.root for one in sunk]
    part = (side.mouth - side.radius) / (side.mouth - side.root) if side.mouth > side.root else 0.0
    ends = zip((first, side.right), (1, -1), depths, rims, strict=True)
    parts = []
    for x, inward, depth, rim in ends:
        parts.append(edge([(x, side.axis), (x, side.axis - rim)]))
        if depth:
            parts.append(edge([(x + inward * depth, side.axis), (x + inward * depth, side.axis - side.root)]))
    start, end = first + part * depths[0], side.right - part * depths[1]
    return [*parts, thin([(start, side.axis - side.radius), (end, side.axis - side.radius)])]


def _view_along(side: NutSide, centre: Point) -> list[str]:
    """Hexagon, hole (thick) and major diameter (thin, three quarters of a circle); the flange where there is one."""
    flange = [circle(centre, side.reach)] if "flange_diameter" in side.sizes else []
    return [*side.hexagon.along(centre), *flange, circle(centre, side.root, THICK), three_quarters(centre, side.radius)]


def _view_dimensions(side: NutSide, centre: Point, row: float) -> list[str]:
    sizes, hexagon, (x, y) = side.sizes, side.hexagon, centre
    half, corner = hexagon.s / 2, hexagon.corner
    flats = (y + corner / 2, y + corner / 2)
    parts = [horizontal(sizes.label("width_across_flats"), x - half, x + half, row, flats)]
    if "width_across_corners" in sizes:
        right = x + max(half, side.reach if "flange_diameter" in sizes else 0.0) + 4
        parts.append(vertical(sizes.label("width_across_corners"), y - corner, y + corner, right, (x, x)))
    if "flange_diameter" in sizes:
        label = sizes.label("flange_diameter")
        parts.append(horizontal(label, x - side.reach, x + side.reach, row + ROW, (y, y)))
    left = x - max(half, side.reach if "flange_diameter" in sizes else 0.0) - 2.0
    for id, radius, sign in (("thread_major_diameter", side.radius, -1), ("thread_minor_diameter", side.root, 1)):
        tip = (x - radius * _DIAGONAL, y + sign * radius * _DIAGONAL)
        parts.append(leader(sizes.label(id), tip, (left, y + sign * (side.reach - 2.0))))
    return parts
