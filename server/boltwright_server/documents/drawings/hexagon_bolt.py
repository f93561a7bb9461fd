"""Drawing of a hexagon head bolt or screw: from the side across corners, and on the head (view A).

The figures of ISO 4014, ISO 4017, ISO 8765 and ISO 8676 show the same symbols; ISO 6410-1 for the thread.
"""

from __future__ import annotations

from ..svg import document, element, number, path
from .bolt_detail import ABOVE, BELOW, detail, detail_mark, has_detail
from .bolt_dimensions import diameters, dimensions_above, dimensions_below, view_on_head
from .bolt_layout import WIDTH, Side, placed
from .pen import ARROW_LENGTH, INK, PAPER, THICK, arrow, centre_line, curve, edge, lettering, thin, thin_curve
from .sizes import Sizes

_BREAK = 2.0
#: Part of the description of a drawing that is not to scale in its length.
LEFT_OUT = "The shank is drawn broken: its middle is left out."
#: The x of the axis in view A, and of the bearing face in detail B right of it.
_VIEW_AT, _DETAIL_AT = 28.0, 84.0


def hexagon_bolt(designation: str, sizes: Sizes) -> str:
    """Return the drawing as SVG, to scale."""
    side = placed(sizes)
    below = side.axis + max(side.hexagon.corner, side.radius + 6.0, side.washer[1] + 6.0) + 10.5
    view = (_VIEW_AT, below + 9.0 + side.hexagon.corner)
    height = view[1] + side.hexagon.corner + 15.5
    detailed: list[str] = []
    if has_detail(side):
        corner = (_DETAIL_AT, below + ABOVE)
        detailed, height = [*detail_mark(side), *detail(side, corner)], max(height, corner[1] + BELOW)
    return document(
        "part",
        WIDTH,
        height,
        f"{designation}: drawing of the part",
        _description(side),
        *_outline(side),
        *dimensions_above(side),
        *dimensions_below(side, below),
        *diameters(side),
        *view_on_head(side, view),
        *detailed,
    )


def _description(side: Side) -> str:
    text = (
        "Hexagon head bolt from the side across corners, and view A on the head, to scale. Each size is drawn at its "
        f"nominal value, else at the middle of its limits, else at its only limit; in {side.sizes.unit}."
    )
    return f"{text} {LEFT_OUT}" if side.left_out else text


def _outline(side: Side) -> list[str]:
    return [
        centre_line((side.head - 3, side.axis), (side.end + 3, side.axis)),
        *_head(side),
        *_shank(side),
        *_thread(side),
        *_break(side),
        *_view_arrow(side),
    ]


def _head(side: Side) -> list[str]:
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


def _shank(side: Side) -> list[str]:
    """Both silhouettes from the fillet under the head to the chamfered point."""
    return [
        *(_silhouette(side, sign) for sign in (-1, 1)),
        edge([(side.end, side.axis - side.root), (side.end, side.axis + side.root)]),
    ]


def _silhouette(side: Side, sign: int) -> str:
    fillet = side.scale * side.sizes.size("fillet_radius") if "fillet_radius" in side.sizes else 0.0
    y = side.axis + sign * side.radius
    start = path([(side.bearing, y + sign * fillet)])
    turn = f"Q{number(side.bearing)} {number(y)} {number(side.bearing + fillet)} {number(y)}"
    point = f"H{number(side.end - (side.radius - side.root))}L{number(side.end)} {number(side.axis + sign * side.root)}"
    return curve(start + turn + point)


def _thread(side: Side) -> list[str]:
    """Thread limit and chamfer edge thick, root thin."""
    start, point = side.thread_start, side.end - (side.radius - side.root)
    upright = [[(x, side.axis - side.radius), (x, side.axis + side.radius)] for x in (start, point)]
    roots = [[(start, side.axis + sign * side.root), (side.end, side.axis + sign * side.root)] for sign in (-1, 1)]
    return [*(edge(one) for one in upright), *(thin(one) for one in roots)]


def _break(side: Side) -> list[str]:
    if not side.left_out:
        return []
    x, reach = side.x(side.sizes.size("length") / 2), side.radius + 1.2
    top, bottom = side.axis - reach, side.axis + reach
    gap = element("rect", x=x - _BREAK / 2, y=top, width=_BREAK, height=2 * reach, fill=PAPER)
    waves = [
        f"M{at:.2f} {top:.2f}Q{at + 1:.2f} {side.axis - reach / 2:.2f} {at:.2f} {side.axis:.2f}T{at:.2f} {bottom:.2f}"
        for at in (x - _BREAK / 2, x + _BREAK / 2)
    ]
    return [gap, *(thin_curve(wave) for wave in waves)]


def _view_arrow(side: Side) -> list[str]:
    tip = side.head - 5.0
    shaft = element(
        "line", x1=tip - 8, y1=side.axis, x2=tip - ARROW_LENGTH, y2=side.axis, stroke=INK, stroke_width=THICK
    )
    return [shaft, arrow((tip, side.axis), 1, 0), lettering("A", (tip - 6, side.axis - 1.8))]
