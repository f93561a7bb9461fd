"""A hexagon seen from the side and along its axis, with its 30 degree chamfer."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, sqrt, tan

from ..svg import Point, number
from .pen import centre_cross, circle, curve, edge

#: Diameter of the chamfer circle in widths across flats; product standards leave it near 0.95 s (common practice).
_CHAMFER_CIRCLE = 0.95
_SLOPE = tan(radians(30))
#: Slope of the upper face of a flange (memory: the standards leave 15 to 25 degrees).
FLANGE_SLOPE = tan(radians(20))


@dataclass(frozen=True, slots=True)
class Hexagon:
    """A hexagon of width across flats `s`; lengths in mm on paper."""

    s: float

    @property
    def corner(self) -> float:
        """Half the width across corners of a sharp hexagon."""
        return self.s / sqrt(3)

    @property
    def chamfer_radius(self) -> float:
        """Radius of the circle in which the chamfer meets the end face."""
        return _CHAMFER_CIRCLE * self.s / 2

    def set_back(self, radius: float) -> float:
        """Return how far the chamfer has moved the face back at a distance from the axis."""
        return max(0.0, radius - self.chamfer_radius) * _SLOPE

    def corners(self, centre: Point) -> list[Point]:
        """Return the six corners seen along the axis, one of them up."""
        x, y = centre
        half, corner = self.s / 2, self.corner
        right = [(x, y - corner), (x + half, y - corner / 2), (x + half, y + corner / 2)]
        return [*right, (x, y + corner), (x - half, y + corner / 2), (x - half, y - corner / 2)]

    def along(self, centre: Point) -> list[str]:
        """Return the view on the hexagon with corners up and down: outline, chamfer circle, centre lines."""
        return [
            edge(self.corners(centre), close=True),
            circle(centre, self.chamfer_radius),
            *centre_cross(centre, self.s / 2, self.corner),
        ]

    def chamfer_curves(self, face: float, axis: float, inward: int) -> list[str]:
        """Return where the chamfer cuts the three faces seen from the side across corners.

        `face` is the x of the chamfered end, `inward` 1 or -1 the direction into the part. Each cut is a hyperbola,
        drawn as the parabola through its ends and its crown.
        """
        return self.face_curves(axis, *self._ends(face, inward))

    def face_curves(self, axis: float, at_corner: float, at_crown: float) -> list[str]:
        """Return where a cone cuts the three faces: the x at the corners and at the middle of a face."""
        half = self.corner / 2
        spans = ((-self.corner, -half), (-half, half), (half, self.corner))
        return [_cut(axis, at_corner, at_crown, low, high) for low, high in spans]

    def lower_chamfer_curves(self, face: float, axis: float, inward: int) -> list[str]:
        """Return the same below the axis only, for a half section."""
        return self.lower_face_curves(axis, *self._ends(face, inward))

    def lower_face_curves(self, axis: float, at_corner: float, at_crown: float) -> list[str]:
        """Return where a cone cuts the faces below the axis."""
        half = self.corner / 2
        middle = f"M{number(at_crown)} {number(axis)}Q{number(at_crown)} {number(axis + half / 2)} "
        return [
            curve(f"{middle}{number(at_corner)} {number(axis + half)}"),
            _cut(axis, at_corner, at_crown, half, self.corner),
        ]

    def _ends(self, face: float, inward: int) -> tuple[float, float]:
        return face + inward * self.set_back(self.corner), face + inward * self.set_back(self.s / 2)


def _cut(axis: float, corner: float, crown: float, low: float, high: float) -> str:
    control = f"{number(2 * crown - corner)} {number(axis + (low + high) / 2)}"
    return curve(f"M{number(corner)} {number(axis + low)}Q{control} {number(corner)} {number(axis + high)}")
