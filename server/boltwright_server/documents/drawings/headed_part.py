"""Drawing of a bolt or screw with a head of any shape: from the side, and on the head (view A).

ISO 128-3 (views), ISO 129-1 (dimensions), ISO 6410-1 (thread).
"""

from __future__ import annotations

from ..svg import document
from .bolt_detail import ABOVE, BELOW, detail, detail_mark, has_detail
from .bolt_dimensions import depths, diameters, dimensions_above, dimensions_below, left_diameters
from .bolt_layout import WIDTH, Head, Side, placed
from .pen import centre_line, lettering
from .shank import break_lines, shank, view_arrow
from .sizes import DRAWN_AT, Sizes

#: Part of the description of a drawing that is not to scale in its length.
LEFT_OUT = "The shank is drawn broken: its middle is left out."
#: The x of the axis in view A, and of the bearing face in detail B right of it.
_VIEW_AT, _DETAIL_AT = 28.0, 84.0
_ROW = 10.5


def headed_part(designation: str, sizes: Sizes, shape: Head) -> str:
    """Return the drawing as SVG, to scale."""
    side = placed(sizes, shape)
    first = side.axis + max(side.reach, side.radius + 6.0, side.washer[1] + 6.0) + 10.5
    below = first + _ROW * sum(id in sizes for id in shape.depths)
    reach = side.scale * shape.view_reach(sizes)
    view = (_VIEW_AT, below + 9.0 + reach)
    height = view[1] + reach + 15.5
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
        centre_line((side.head - 3, side.axis), (side.end + 3, side.axis)),
        *shape.outline(side),
        *shank(side),
        *break_lines(side),
        *view_arrow(side.head - (8.0 if shape.diameters else 5.0), side.axis),
        *dimensions_above(side),
        *left_diameters(side),
        *depths(side, first, _ROW),
        *dimensions_below(side, below),
        *diameters(side),
        lettering("A", (view[0], view[1] - reach - 4.5), "middle"),
        *shape.view(side, view),
        *detailed,
    )


def _description(side: Side) -> str:
    text = f"{side.shape.name} from the side, and view A along its axis, to scale. {DRAWN_AT} in {side.sizes.unit}."
    return f"{text} {LEFT_OUT}" if side.left_out else text
