"""The dimensions of a bolt or screw around its side view."""

from __future__ import annotations

from .bolt_layout import Side, rise
from .dimension import across, horizontal, left_of, vertical

#: Where the dimension line of dw stands, right of the bearing face or, beside a short plain shank, of the thread limit.
_WASHER_AT, _SHORT_SHANK = 3.5, 10.0
#: Width of its label, at most, and how far from the shank the label stands.
_WASHER_LABEL, _WASHER_RISE = 15.0, 4.5
#: How far below the washer face the label of ds stands, clear of the dimension line of dw.
_BODY_FALL = 4.2
_ROW = 7.5
#: How far left of the head its diameters stand.
_LEFT_AT = (3.5, 6.5)


def dimensions_above(side: Side) -> list[str]:
    """Dimensions above: ls, then lg and b in one row; or a."""
    sizes, start, end = side.sizes, side.thread_start, side.end
    washer = side.axis - side.washer[1]
    row = side.axis - rise(side)
    upper = row - _ROW
    parts = []
    if "unthreaded_length" in sizes:
        label = sizes.label("unthreaded_length")
        parts.append(horizontal(label, side.shank, start, row, (washer, side.axis - side.radius)))
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


def _body_at(side: Side) -> float:
    """The x of the dimension line of ds: in the middle of the plain shank, but clear of the label of dw."""
    middle, clear = (side.shank + side.thread_start) / 2, _washer_at(side) + _WASHER_LABEL + 1.2
    in_the_way = "washer_face_diameter" in side.sizes and middle < clear < side.thread_start - 1.0
    return clear if in_the_way else middle


def _foot(side: Side, x: float, row: float) -> float:
    """Where an extension line starts: at the silhouette, but above the label of dw where that stands in its way."""
    in_the_way = "washer_face_diameter" in side.sizes and x < _washer_at(side) + _WASHER_LABEL
    return row + 2.0 if in_the_way else side.axis - side.radius


def dimensions_below(side: Side, row: float) -> list[str]:
    """Dimensions below: k and l in one row; l alone where it includes the head."""
    sizes, axis = side.sizes, side.axis
    corner, washer = axis + side.reach, axis + side.washer[1]
    in_the_way = not side.has_plain_shank and side.end < _washer_at(side) + _WASHER_LABEL
    end = axis + (side.radius + _WASHER_RISE + 2.0 if in_the_way else side.root)
    length = horizontal(sizes.label("length"), side.bearing, side.end, row, (washer, end))
    if side.shape.in_length:
        return [length]
    return [horizontal(sizes.label("head_height"), side.head, side.bearing, row, (corner, washer), outside=-1), length]


def depths(side: Side, row: float, pitch: float) -> list[str]:
    """What is measured from the top of the head, one row each: depth of the socket, height of a countersunk head."""
    parts = []
    for id in side.shape.depths:
        if id in side.sizes:
            end = side.head + side.on_paper(id)
            feet = (side.axis + side.reach, side.axis + side.radius)
            parts.append(horizontal(side.sizes.label(id), side.head, end, row, feet, outside=-1))
            row += pitch
    return parts


def left_diameters(side: Side) -> list[str]:
    """Diameters of the head left of it: the first with its label below, the second further out with it above."""
    parts = []
    for place, id in enumerate(side.shape.diameters):
        if id in side.sizes:
            reach, sign = side.on_paper(id) / 2, (1, -1)[place]
            y1, y2 = side.axis - reach, side.axis + reach
            at, feet = side.head - _LEFT_AT[place], (side.head, side.head)
            parts.append(left_of(side.sizes.label(id), (y1, y2), at, feet, side.axis + sign * (side.reach + 3.4)))
    return parts


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
        x = _body_at(side)
        at = axis + max(radius, side.washer[1]) + _BODY_FALL
        parts.append(across(sizes.label("body_diameter"), axis - reach, axis + reach, x, at))
    return parts
