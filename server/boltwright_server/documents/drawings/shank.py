"""Shank and thread of a bolt or screw from the side, the same under every head.

ISO 6410-1 for the thread: its root is thin, its limit thick.
"""

from __future__ import annotations

from ..svg import element, number, path
from .bolt_layout import Side
from .pen import ARROW_LENGTH, INK, PAPER, THICK, arrow, curve, edge, lettering, thin, thin_curve

_BREAK = 2.0


def shank(side: Side) -> list[str]:
    """Return the silhouettes from the fillet under the head to the chamfered point, and the thread."""
    return [
        *(_silhouette(side, sign) for sign in (-1, 1)),
        edge([(side.end, side.axis - side.root), (side.end, side.axis + side.root)]),
        *_thread(side),
    ]


def _silhouette(side: Side, sign: int) -> str:
    y, root = side.axis + sign * side.radius, side.axis + sign * side.root
    point = f"H{number(side.end - (side.radius - side.root))}L{number(side.end)} {number(root)}"
    if chamfer := _chamfer(side):
        return curve(path([(side.shank, root), (side.shank + chamfer, y)]) + point)
    fillet = 0.0 if side.shape.in_length else side.on_paper("fillet_radius")
    turn = f"Q{number(side.shank)} {number(y)} {number(side.shank + fillet)} {number(y)}"
    return curve(path([(side.shank, y + sign * fillet)]) + turn + point)


def _chamfer(side: Side) -> float:
    """A part without a head is chamfered at its other end too."""
    return 0.0 if "head_height" in side.sizes else side.radius - side.root


def _thread(side: Side) -> list[str]:
    """Thread limit and chamfer edge thick, root thin."""
    start, point = side.thread_start, side.end - (side.radius - side.root)
    edges = (start + _chamfer(side), point)
    upright = [[(x, side.axis - side.radius), (x, side.axis + side.radius)] for x in edges]
    roots = [[(start, side.axis + sign * side.root), (side.end, side.axis + sign * side.root)] for sign in (-1, 1)]
    return [*(edge(one) for one in upright), *(thin(one) for one in roots)]


def break_lines(side: Side) -> list[str]:
    """Return the gap in the middle of a part that is drawn shortened."""
    if not side.left_out:
        return []
    x, reach = side.x(side.joint), side.radius + 1.2
    top, bottom = side.axis - reach, side.axis + reach
    gap = element("rect", x=x - _BREAK / 2, y=top, width=_BREAK, height=2 * reach, fill=PAPER)
    waves = [
        f"M{at:.2f} {top:.2f}Q{at + 1:.2f} {side.axis - reach / 2:.2f} {at:.2f} {side.axis:.2f}T{at:.2f} {bottom:.2f}"
        for at in (x - _BREAK / 2, x + _BREAK / 2)
    ]
    return [gap, *(thin_curve(wave) for wave in waves)]


def view_arrow(tip: float, axis: float) -> list[str]:
    """Return the arrow A that says from where the view on the head is taken."""
    shaft = element("line", x1=tip - 8, y1=axis, x2=tip - ARROW_LENGTH, y2=axis, stroke=INK, stroke_width=THICK)
    return [shaft, arrow((tip, axis), 1, 0), lettering("A", (tip - 6, axis - 1.8))]
