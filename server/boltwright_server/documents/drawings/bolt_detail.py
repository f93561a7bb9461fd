"""Detail B of a bolt or screw: bearing face, fillet and transition under the head, enlarged."""

from __future__ import annotations

from dataclasses import dataclass

from ..svg import Point, element, number, path
from .bolt_layout import Side
from .dimension import horizontal, leader
from .hexagon import FLANGE_SLOPE
from .pen import THIN, arrow, circle, curve, lettering, thin
from .sizes import Sizes

_NEEDED = ("fillet_radius", "washer_face_diameter", "bearing_face_inner_diameter")
#: Room for the step from shank to washer face, and for the transition along the shank.
_STEP, _REACH = 10.0, 9.0
#: A thinner head leaves no room for the letter between the extension lines of k; depths leave none at all.
_ROOM_FOR_LETTER = 4.5
#: How much of the sloping upper face of a flange is shown.
_RUN = 2.0
#: Height of the detail above and below the outer edge of the bearing face.
ABOVE, BELOW = 22.0, _STEP + 10.0


@dataclass(frozen=True, slots=True)
class _Detail:
    """The corner under the head: `bearing` is the x of the bearing face, `edge` the y of its outer edge, on paper."""

    sizes: Sizes
    zoom: float
    bearing: float
    edge: float

    @property
    def shank(self) -> float:
        """The y of the shank."""
        return self.edge + self.zoom * _step(self.sizes)

    @property
    def transition(self) -> float:
        """The y at which the fillet leaves the bearing face."""
        return self.shank - self.zoom * (self.sizes.size("bearing_face_inner_diameter") - self.sizes.d) / 2

    @property
    def step(self) -> float:
        """Thickness of the washer face or flange on paper."""
        return self.zoom * self.sizes.size(self.thickness) if self.thickness in self.sizes else 0.0

    @property
    def thickness(self) -> str:
        """The id of that thickness."""
        return "flange_thickness" if _has_flange(self.sizes) else "washer_face_thickness"

    @property
    def reach(self) -> float:
        """Length of the transition on paper."""
        return self.zoom * _reach(self.sizes)


def _has_flange(sizes: Sizes) -> bool:
    return "flange_diameter" in sizes


def _step(sizes: Sizes) -> float:
    """From the shank to the edge of the bearing face, or to the rim of the flange."""
    outer = "flange_diameter" if _has_flange(sizes) else "washer_face_diameter"
    return (sizes.size(outer) - sizes.d) / 2


def _reach(sizes: Sizes) -> float:
    return sizes.size("transition_length" if "transition_length" in sizes else "fillet_radius")


def has_detail(side: Side) -> bool:
    """Say whether the standard gives what the detail shows."""
    return all(id in side.sizes for id in _NEEDED)


def detail_mark(side: Side) -> list[str]:
    """Return the circle B around the corner that the detail enlarges."""
    washer = side.washer[1]
    centre = (side.bearing, side.axis + (side.radius + washer) / 2)
    crowded = side.bearing - side.head < _ROOM_FOR_LETTER or side.shape.depths
    letter = (side.bearing + (0.8 if crowded else -3.6), side.axis + side.reach + 3.8)
    return [circle(centre, (washer - side.radius) / 2 + 1.2, THIN), lettering("B", letter)]


def detail(side: Side, at: Point) -> list[str]:
    """Return the detail; `at` is the outer edge of the bearing face on paper."""
    sizes = side.sizes
    zoom = min(_STEP / _step(sizes), _REACH / _reach(sizes))
    return _drawn(_Detail(sizes, zoom, *at))


def _drawn(one: _Detail) -> list[str]:
    x, shank = one.bearing, one.shank
    back = (x - one.step, one.edge)
    start = (back[0] - _RUN, one.edge + _RUN / FLANGE_SLOPE) if _has_flange(one.sizes) else (back[0], one.edge - 5.0)
    face = [start, back, (x, one.edge), (x, one.transition)]
    fillet = f"Q{number(x)} {number(shank)} {number(x + one.reach)} {number(shank)}H{number(x + one.reach + 4.0)}"
    return [
        lettering("B", (x, one.edge - 17.0), "middle"),
        curve(path(face) + fillet),
        *_dimensions(one),
    ]


def _dimensions(one: _Detail) -> list[str]:
    sizes, x = one.sizes, one.bearing
    on_fillet = (x + 0.25 * one.reach, one.shank - 0.25 * (one.shank - one.transition))
    parts = [leader(sizes.label("fillet_radius"), on_fillet, (x - 2.5, one.shank - 2.0)), *_inner_diameter(one)]
    if one.step:
        feet = (one.edge if _has_flange(sizes) else one.edge - 5.0, one.edge)
        parts.append(horizontal(sizes.label(one.thickness), x - one.step, x, one.edge - 11.5, feet))
    if "transition_length" in sizes:
        label = sizes.label("transition_length")
        feet = (one.shank, one.shank)
        parts.append(horizontal(label, x, x + one.reach, one.shank + 6.0, feet, outside=-1))
    return parts


def _inner_diameter(one: _Detail) -> list[str]:
    """One end of the diameter da, measured from outside: the other end lies beyond the axis."""
    x, y = one.bearing + one.reach + 1.0, one.transition
    label = one.sizes.label("bearing_face_inner_diameter")
    parts = [thin([(one.bearing + 0.8, y), (x + 1.6, y)]), thin([(x, y), (x, y - 7.5)]), arrow((x, y), 0, 1)]
    return [element("g", *parts, label.drawn(x + 1.2, y - 6.0), data_figure=label.id)]
