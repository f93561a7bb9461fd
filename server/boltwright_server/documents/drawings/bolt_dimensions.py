"""The dimensions of a hexagon bolt around its side view, and its view A on the head."""

from __future__ import annotations

from ..svg import Point
from .bolt_layout import Side, rise
from .dimension import across, horizontal, vertical
from .pen import lettering

#: Where the dimension line of dw stands, right of the bearing face or, beside a short plain shank, of the thread limit.
_WASHER_AT, _SHORT_SHANK = 3.5, 10.0
#: Width of its label, at most, and how far from the shank the label stands.
_WASHER_LABEL, _WASHER_RISE = 15.0, 4.5
#: How far below the washer face the label of ds stands, clear of the dimension line of dw.
_BODY_FALL = 4.2
_ROW = 7.5


def dimensions_above(side: Side) -> list[str]:
    """Dimensions above: ls, then lg and b in one row; or a."""
    sizes, start, end = side.sizes, side.thread_start, side.end
    washer = side.axis - side.washer[1]
    row = side.axis - rise(side.hexagon.corner, side.radius)
    upper = row - _ROW
    parts = []
    if "unthreaded_length" in sizes:
        label = sizes.label("unthreaded_length")
        parts.append(horizontal(label, side.bearing, start, row, (washer, side.axis - side.radius)))
    if "body_length" in sizes:
        body = side.x(sizes.size("body_length"))
        feet = (washer, _foot(side, body, row))
        parts.append(horizontal(sizes.label("body_length"), side.bearing, body, row, feet, outside=-1))
    if "grip_length" in sizes:
        feet = (washer, _foot(side, start, row))
        parts.append(horizontal(sizes.label("grip_length"), side.bearing, start, upper, feet, outside=-1))
    if "thread_length" in sizes and side.has_plain_shank:
        feet = (_foot(side, start, row), _foot(side, end, row))
        parts.append(horizontal(sizes.label("thread_length"), start, end, upper, feet))
    return parts


def _washer_at(side: Side) -> float:
    """The x of the dimension line of dw."""
    shank = side.thread_start - side.bearing
    beside = side.has_plain_shank and shank < _SHORT_SHANK
    return side.thread_start + 2.5 if beside else side.bearing + _WASHER_AT


def _foot(side: Side, x: float, row: float) -> float:
    """Where an extension line starts: at the silhouette, but above the label of dw where that stands in its way."""
    in_the_way = "washer_face_diameter" in side.sizes and x < _washer_at(side) + _WASHER_LABEL
    return row + 2.0 if in_the_way else side.axis - side.radius


def dimensions_below(side: Side, row: float) -> list[str]:
    """Dimensions below: k and l in one row."""
    sizes, axis = side.sizes, side.axis
    corner, washer = axis + side.hexagon.corner, axis + side.washer[1]
    in_the_way = not side.has_plain_shank and side.end < _washer_at(side) + _WASHER_LABEL
    end = axis + (side.radius + _WASHER_RISE + 2.0 if in_the_way else side.root)
    return [
        horizontal(sizes.label("head_height"), side.head, side.bearing, row, (corner, washer), outside=-1),
        horizontal(sizes.label("length"), side.bearing, side.end, row, (washer, end)),
    ]


def diameters(side: Side) -> list[str]:
    """The diameters dw and ds, whose dimension lines cross the shank, and d at its end."""
    sizes, axis, radius = side.sizes, side.axis, side.radius
    point = side.end - (radius - side.root)
    label = sizes.label("thread_major_diameter")
    parts = [vertical(label, axis - radius, axis + radius, side.end + 5.0, (point, point))]
    if "washer_face_diameter" in sizes:
        washer = side.washer[1]
        at = axis + (-1 if side.has_plain_shank else 1) * (radius + _WASHER_RISE)
        label = sizes.label("washer_face_diameter")
        parts.append(across(label, axis - washer, axis + washer, _washer_at(side), at))
    if side.has_plain_shank:
        reach = side.scale * sizes.size("body_diameter") / 2
        x = (side.bearing + side.thread_start) / 2
        at = axis + max(radius, side.washer[1]) + _BODY_FALL
        parts.append(across(sizes.label("body_diameter"), axis - reach, axis + reach, x, at))
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
