"""Drawing of a hexagon socket set screw: from the side with its point at the right, and on its socket (view A).

The figures of ISO 4026 (flat point), ISO 4027 (cone), ISO 4028 (dog) and ISO 4029 (cup) show the same symbols.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import sqrt

from ..svg import Point, document
from .dimension import horizontal, left_of, vertical
from .pen import centre_cross, centre_line, circle, edge, hidden, lettering, thin, three_quarters
from .scaled import Scaled
from .shank import view_arrow
from .sizes import DRAWN_AT, Sizes
from .socket import socket_from_side, socket_of, socket_view

_WIDTH, _TALLEST, _LEFT, _RIGHT = 110.0, 30.0, 27.0, 25.0
_VIEW_AT, _ROW = 28.0, 10.5
#: Where the diameter of the point stands, right of the end, and that of the thread, left of the screw.
_POINT_AT, _THREAD_AT = 5.0, 3.5


@dataclass(frozen=True, slots=True)
class _Side(Scaled):
    """The side view on paper: its left end, its right end, its axis."""

    left: float
    axis: float

    @property
    def right(self) -> float:
        return self.left + self.on_paper("length")


#: A point: the silhouette above the axis from the thread to the end, as (x, distance from the axis); hidden edges.
Tip = tuple[list[tuple[float, float]], list[str]]


def set_screw(designation: str, sizes: Sizes, end: str) -> str:
    """Return the drawing as SVG, to scale; `end` is the form of the point, ISO 4753."""
    scale = min((_WIDTH - _LEFT - _RIGHT) / sizes.size("length"), _TALLEST / sizes.d)
    side = _Side(sizes, scale, _LEFT, scale * sizes.d / 2 + 12.0)
    row = side.axis + side.radius + 10.5
    last = row + (_ROW if "socket_depth" in sizes else 0.0)
    view = (_VIEW_AT, last + 9.0 + side.radius)
    name, point = POINTS[end]
    return document(
        "part",
        _WIDTH,
        view[1] + side.radius + 15.5,
        f"{designation}: drawing of the part",
        f"Hexagon socket set screw with {name} from the side, and view A on its socket, to scale. {DRAWN_AT} in "
        f"{sizes.unit}.",
        centre_line((side.left - 3, side.axis), (side.right + 3, side.axis)),
        *_body(side, *point(side)),
        *socket_from_side(socket_of(sizes, scale), side.left, side.on_paper("socket_depth"), side.axis),
        *view_arrow(side.left - 8.0, side.axis),
        *_dimensions(side, row, last),
        *_view(side, view),
    )


def _body(side: _Side, outline: list[tuple[float, float]], hidden_edges: list[str]) -> list[str]:
    """Chamfered end, thread to the point, point; the root of the thread thin."""
    left, axis, chamfer = side.left, side.axis, side.radius - side.root
    upper = [(left, side.root), (left + chamfer, side.radius), *outline]
    whole = [*((x, axis - y) for x, y in upper), *((x, axis + y) for x, y in reversed(upper))]
    edges = [(x, y) for x, y in [(left + chamfer, side.radius), *outline[:-1]] if y]
    thread_end = outline[0][0]
    return [
        edge(whole, close=True),
        *(edge([(x, axis - y), (x, axis + y)]) for x, y in edges),
        *(thin([(left, axis + sign * side.root), (thread_end, axis + sign * side.root)]) for sign in (-1, 1)),
        *hidden_edges,
    ]


def _flat(side: _Side) -> Tip:
    radius = side.on_paper("point_diameter") / 2
    return [(side.right - (side.radius - radius), side.radius), (side.right, radius)], []


def _cone(side: _Side) -> Tip:
    """A cone of 90 degrees (120 degrees on short screws is not drawn)."""
    tip = side.on_paper("cone_tip_diameter") / 2
    return [(side.right - (side.radius - tip), side.radius), (side.right, tip)], []


def _dog(side: _Side) -> Tip:
    """The nominal length includes the dog; the thread ends in a chamfer of 45 degrees down to it."""
    radius = side.on_paper("point_diameter") / 2
    shoulder = side.right - side.on_paper("point_length")
    return [(shoulder - (side.radius - radius), side.radius), (shoulder, radius), (side.right, radius)], []


def _cup(side: _Side) -> Tip:
    """The rim of the cup lies at the end; the hollow is a cone of 120 degrees."""
    radius = side.on_paper("cup_diameter") / 2
    bottom = side.right - radius / sqrt(3)
    hollow = [(side.right, side.axis - radius), (bottom, side.axis), (side.right, side.axis + radius)]
    return [(side.right - (side.radius - radius), side.radius), (side.right, radius)], [hidden(hollow)]


#: Form of the point (ISO 4753) -> what it is called, how it is drawn.
POINTS: dict[str, tuple[str, Callable[[_Side], Tip]]] = {
    "FL": ("flat point", _flat),
    "CN": ("cone point", _cone),
    "LD": ("dog point", _dog),
    "CP": ("cup point", _cup),
}
_POINT_IDS = ("point_diameter", "cone_tip_diameter", "cup_diameter")


def _dimensions(side: _Side, row: float, last: float) -> list[str]:
    sizes, axis, radius = side.sizes, side.axis, side.radius
    parts = []
    if "socket_depth" in sizes:
        depth = side.left + side.on_paper("socket_depth")
        feet = (axis + side.root, axis + radius)
        parts.append(horizontal(sizes.label("socket_depth"), side.left, depth, row, feet, outside=-1))
    for id in _POINT_IDS:
        if id in sizes:
            reach, right = side.on_paper(id) / 2, (side.right, side.right)
            parts.append(vertical(sizes.label(id), axis - reach, axis + reach, side.right + _POINT_AT, right))
    if "point_length" in sizes:
        start = side.right - side.on_paper("point_length")
        feet = (axis - side.on_paper("point_diameter") / 2,) * 2
        parts.append(horizontal(sizes.label("point_length"), start, side.right, axis - radius - 4.0, feet))
    label, at = sizes.label("thread_major_diameter"), side.left + radius - side.root
    limits, x = (axis - radius, axis + radius), side.left - _THREAD_AT
    parts.append(left_of(label, limits, x, (at, at), axis + radius + 3.4))
    feet = (axis + side.root, axis)
    return [*parts, horizontal(sizes.label("length"), side.left, side.right, last, feet)]


def _view(side: _Side, centre: Point) -> list[str]:
    """The end with the socket: major diameter thick, root three quarters of a thin circle."""
    return [
        lettering("A", (centre[0], centre[1] - side.radius - 4.5), "middle"),
        circle(centre, side.radius),
        three_quarters(centre, side.root),
        *centre_cross(centre, side.radius, side.radius),
        *socket_view(side.sizes, side.scale, centre, side.radius),
    ]
