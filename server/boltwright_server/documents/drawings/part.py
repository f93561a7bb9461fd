"""Which drawing belongs to which family of products."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from ...products import ProductDimensions
from ...specification import Specification
from ...standards import current
from .bolt_layout import Head
from .dimension import Links
from .flange_nut import flange_nut
from .headed_part import headed_part
from .hexagon_head import FLANGE, HEXAGON
from .hexagon_nut import hexagon_nut
from .plain_washer import plain_washer
from .prevailing_torque_flange_nut import prevailing_torque_flange_nut
from .prevailing_torque_nut import prevailing_torque_nut
from .rod import ROD
from .set_screw import POINTS, set_screw
from .sizes import Sizes
from .socket_head import BUTTON, COUNTERSUNK, CYLINDER

Drawing = Callable[[str, Sizes], str]

#: Shape of the head of a bolt or screw -> its drawing.
_HEADS: dict[str, Head] = {
    "hexagon": HEXAGON,
    "hexagon with flange": FLANGE,
    "cylinder": CYLINDER,
    "countersunk": COUNTERSUNK,
    "button": BUTTON,
}
_RODS = ("threaded_rod", "inch_threaded_rod")
_BOLTS = ("hexagon_bolt", "hexagon_flange_bolt", "socket_screw", "inch_hexagon_bolt", "inch_socket_screw")
#: family in a `standard.toml` -> its drawing, where the head does not decide.
_DRAWINGS: dict[str, Drawing] = {
    "hexagon_nut": hexagon_nut,
    "inch_hexagon_nut": hexagon_nut,
    "hexagon_flange_nut": flange_nut,
    "prevailing_torque_nut": prevailing_torque_nut,
    "prevailing_torque_flange_nut": prevailing_torque_flange_nut,
    "plain_washer": plain_washer,
}


def part_drawing(found: Specification, links: Links | None = None) -> str | None:
    """Return the drawing of a product as SVG, or None where none is held for its shape (or it is a thread alone).

    Nor is there one where a size that the drawing needs is not held.

    `links` leads the figure of a characteristic to an address; without it the drawing stands on its own.
    """
    owner = current(found.item.standard)
    drawing = None if owner is None or found.dimensions is None else _drawing(owner.family, found.dimensions)
    try:
        return None if drawing is None else drawing(found.designation, Sizes.of(found, links or {}))
    except (KeyError, ZeroDivisionError):
        return None


def _drawing(family: str, part: ProductDimensions) -> Drawing | None:
    """A shape that is not listed has no drawing: a wrong one would mislead."""
    if family in _BOLTS and part.head in _HEADS:
        return partial(headed_part, shape=_HEADS[part.head])
    if family in _RODS:
        return partial(headed_part, shape=ROD)
    if family == "set_screw" and part.end in POINTS:
        return partial(set_screw, end=part.end)
    return _DRAWINGS.get(family)
