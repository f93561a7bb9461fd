"""A rod threaded over its whole length, as a part without a head.

ISO 6410-1 for the thread; both ends chamfered to its root (ISO 4753, form CH).
"""

from __future__ import annotations

from ..svg import Point
from .bolt_layout import Head, Side
from .pen import centre_cross, circle, edge, three_quarters
from .sizes import Sizes


def _radius(sizes: Sizes) -> float:
    return sizes.d / 2


def _end(side: Side) -> list[str]:
    return [edge([(side.shank, side.axis - side.root), (side.shank, side.axis + side.root)])]


def _view(side: Side, centre: Point) -> list[str]:
    cross = centre_cross(centre, side.radius, side.radius)
    return [circle(centre, side.radius), three_quarters(centre, side.root), *cross]


ROD = Head("Threaded rod", _radius, _end, _view, _radius, in_length=True)
