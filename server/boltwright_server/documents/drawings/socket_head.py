"""Heads of hexagon socket screws: cylindrical, countersunk, button.

The figures of ISO 4762, ISO 10642, ISO 7380-1 and ASME B18.3 show the same shapes.
"""

from __future__ import annotations

from math import sqrt

from ..svg import Point, number
from .bolt_layout import Head, Side
from .pen import centre_cross, circle, curve, edge, thin
from .sizes import Sizes
from .socket import socket_from_side, socket_of, socket_view


def _radius(sizes: Sizes) -> float:
    return sizes.size("head_diameter") / 2


def _theoretical(sizes: Sizes) -> float:
    wide = "head_diameter_theoretical"
    return max(_radius(sizes), sizes.size(wide) / 2 if wide in sizes else 0.0)


def _view(side: Side, centre: Point) -> list[str]:
    radius = side.on_paper("head_diameter") / 2
    reach = side.scale * side.shape.view_reach(side.sizes)
    return [
        circle(centre, radius),
        *centre_cross(centre, radius, radius),
        *socket_view(side.sizes, side.scale, centre, reach),
    ]


def _socket(side: Side, top: float) -> list[str]:
    depth = side.on_paper("socket_depth") + side.head - top
    return socket_from_side(socket_of(side.sizes, side.scale), top, depth, side.axis)


def _cylinder(side: Side) -> list[str]:
    head, bearing, axis, radius = side.head, side.bearing, side.axis, side.reach
    outline = [
        (bearing, axis - radius),
        (head, axis - radius),
        (head, axis + radius),
        (bearing, axis + radius),
    ]
    return [edge(outline, close=True), *_socket(side, head)]


def _countersunk(side: Side) -> list[str]:
    """A cone of 90 degrees whose sharp edge is cut back to the actual diameter of the head."""
    head, axis, radius = side.head, side.axis, side.on_paper("head_diameter") / 2
    land = head + side.reach - radius
    outline = [
        (side.shank, axis - side.radius),
        (land, axis - radius),
        (head, axis - radius),
        (head, axis + radius),
        (land, axis + radius),
        (side.shank, axis + side.radius),
    ]
    edges = [[(land, axis - radius), (land, axis + radius)], [outline[0], outline[-1]]]
    sharp = [[(land, axis + sign * radius), (head, axis + sign * side.reach)] for sign in (-1, 1)]
    return [edge(outline), *(edge(one) for one in edges), *(thin(one) for one in sharp), *_socket(side, head)]


def _button(side: Side) -> list[str]:
    """A dome through the edge of the bearing face and the top of the head; the socket opens in it."""
    height, axis, radius = side.bearing - side.head, side.axis, side.reach
    sphere = (radius * radius + height * height) / (2 * height)
    top, bottom = axis - radius, axis + radius
    at, turn = number(side.bearing), f"{number(sphere)} {number(sphere)} 0 0 0"
    dome = f"M{at} {number(top)}A{turn} {at} {number(bottom)}Z"
    corner = socket_of(side.sizes, side.scale).corner
    opening = side.head + sphere - sqrt(sphere * sphere - corner * corner)
    return [curve(dome), *_socket(side, opening)]


CYLINDER = Head(
    "Hexagon socket head cap screw",
    _radius,
    _cylinder,
    _view,
    _radius,
    diameters=("head_diameter",),
    depths=("socket_depth",),
)
COUNTERSUNK = Head(
    "Hexagon socket countersunk head screw",
    _theoretical,
    _countersunk,
    _view,
    _theoretical,
    diameters=("head_diameter", "head_diameter_theoretical"),
    depths=("socket_depth", "head_height"),
    in_length=True,
)
BUTTON = Head(
    "Hexagon socket button head screw",
    _radius,
    _button,
    _view,
    _radius,
    diameters=("head_diameter",),
    depths=("socket_depth",),
)
