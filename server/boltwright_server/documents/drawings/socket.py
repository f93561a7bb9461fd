"""A hexagon socket: hidden from the side, seen along the axis with its widths."""

from __future__ import annotations

from math import sqrt

from ..svg import Point
from .dimension import horizontal, vertical
from .hexagon import Hexagon
from .pen import edge, hidden
from .sizes import Sizes

#: Depth of the cone at the bottom of a socket in parts of its radius: 120 degrees.
_CONE = 1 / sqrt(3)


def socket_from_side(hexagon: Hexagon, top: float, depth: float, axis: float) -> list[str]:
    """Return the hidden edges of a socket that opens at the x `top`."""
    corner, bottom = hexagon.corner, top + depth
    if not depth:
        return []
    outline = [(top, axis - corner), (bottom, axis - corner), (bottom, axis + corner), (top, axis + corner)]
    edges = [[(top, axis + half), (bottom, axis + half)] for half in (-corner / 2, corner / 2)]
    cone = [
        (bottom, axis - hexagon.s / 2),
        (bottom + hexagon.s / 2 * _CONE, axis),
        (bottom, axis + hexagon.s / 2),
    ]
    return [hidden(one) for one in (outline, *edges, cone)]


def socket_view(sizes: Sizes, scale: float, centre: Point, reach: float) -> list[str]:
    """Return the socket along the axis with s and e; `reach` is half the breadth of the whole view."""
    hexagon, (x, y) = socket_of(sizes, scale), centre
    half, corner = hexagon.s / 2, hexagon.corner
    flats = (y + corner / 2, y + corner / 2)
    parts = [edge(hexagon.corners(centre), close=True)]
    label = sizes.label("socket_width_across_flats")
    parts.append(horizontal(label, x - half, x + half, y + reach + 10.5, flats))
    if "socket_width_across_corners" in sizes:
        label = sizes.label("socket_width_across_corners")
        parts.append(vertical(label, y - corner, y + corner, x + reach + 6, (x, x)))
    return parts


def socket_of(sizes: Sizes, scale: float) -> Hexagon:
    """Return the hexagon of the socket, on paper."""
    return Hexagon(scale * sizes.size("socket_width_across_flats"))
