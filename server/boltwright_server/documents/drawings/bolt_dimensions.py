"""The dimensions of a hexagon bolt around its side view, and its view A on the head."""

from __future__ import annotations

from ..svg import Point
from .bolt_layout import Side, rise
from .dimension import across, horizontal, vertical
from .pen import lettering

#: Place of the dimension dw, right of the bearing face.
_WASHER_AT = 3.5


def dimensions_above(side: Side) -> list[str]:
    """Dimensions above: ls, then lg and b in one row; or a."""
    sizes, silhouette = side.sizes, side.axis - side.radius
    washer = side.axis - side.washer[1]
    row = side.axis - rise(side.hexagon.corner, side.radius)
    parts = []
    if "unthreaded_length" in sizes:
        label = sizes.label("unthreaded_length")
        parts.append(horizontal(label, side.bearing, side.thread_start, row, (washer, silhouette)))
    if "body_length" in sizes:
        end = side.x(sizes.size("body_length"))
        # Where the label of dw stands, the extension line starts above it.
        foot = silhouette if end > side.bearing + _WASHER_AT + 18.0 else row + 2.0
        parts.append(horizontal(sizes.label("body_length"), side.bearing, end, row, (washer, foot)))
    row -= 7.5
    if "grip_length" in sizes:
        parts.append(horizontal(sizes.label("grip_length"), side.bearing, side.thread_start, row, (washer, silhouette)))
    if "thread_length" in sizes:
        label = sizes.label("thread_length")
        parts.append(horizontal(label, side.thread_start, side.end, row, (silhouette, silhouette)))
    return parts


def dimensions_below(side: Side, row: float) -> list[str]:
    """Dimensions below: k and l in one row."""
    sizes, axis = side.sizes, side.axis
    corner, washer = axis + side.hexagon.corner, axis + side.washer[1]
    return [
        horizontal(sizes.label("head_height"), side.head, side.bearing, row, (corner, washer), outside=-1),
        horizontal(sizes.label("length"), side.bearing, side.end, row, (washer, axis + side.root)),
    ]


def diameters(side: Side) -> list[str]:
    """The diameters dw and ds, whose dimension lines cross the shank, and d at its end."""
    sizes, axis, radius = side.sizes, side.axis, side.radius
    point = side.end - (radius - side.root)
    label = sizes.label("thread_major_diameter")
    parts = [vertical(label, axis - radius, axis + radius, side.end + 5.0, (point, point))]
    above = "body_diameter" in sizes
    if "washer_face_diameter" in sizes:
        washer = side.washer[1]
        at = axis - radius - 4.5 if above else axis + radius + 4.5
        label = sizes.label("washer_face_diameter")
        parts.append(across(label, axis - washer, axis + washer, side.bearing + _WASHER_AT, at))
    if above:
        reach = side.scale * sizes.size("body_diameter") / 2
        x = (side.bearing + side.thread_start) / 2
        parts.append(across(sizes.label("body_diameter"), axis - reach, axis + reach, x, axis + radius + 5.5))
    return parts


def view_on_head(side: Side, centre: Point) -> list[str]:
    """Return view A with s and e."""
    hexagon, sizes, (x, y) = side.hexagon, side.sizes, centre
    half, corner = hexagon.s / 2, hexagon.corner
    parts = [lettering("A", (x, y - corner - 4.5), "middle"), *hexagon.along(centre)]
    flats = (y + corner / 2, y + corner / 2)
    parts.append(horizontal(sizes.label("width_across_flats"), x - half, x + half, y + corner + 10.5, flats))
    if "width_across_corners" in sizes:
        parts.append(vertical(sizes.label("width_across_corners"), y - corner, y + corner, x + half + 6, (x, x)))
    return parts
