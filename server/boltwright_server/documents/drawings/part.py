"""Which drawing belongs to which family of products."""

from __future__ import annotations

from collections.abc import Callable

from ...specification import Specification
from ...standards import current
from .dimension import Links
from .hexagon_bolt import hexagon_bolt
from .hexagon_nut import hexagon_nut
from .sizes import Sizes

#: family in a `standard.toml` -> its drawing. A family that is not listed has none: a wrong one would mislead.
_DRAWINGS: dict[str, Callable[[str, Sizes], str]] = {
    "hexagon_bolt": hexagon_bolt,
    "hexagon_nut": hexagon_nut,
    "inch_hexagon_bolt": hexagon_bolt,
    "inch_hexagon_nut": hexagon_nut,
}


def part_drawing(found: Specification, links: Links | None = None) -> str | None:
    """Return the drawing of a product as SVG, or None where none is held for its family (or it is a thread alone).

    `links` leads the figure of a characteristic to an address; without it the drawing stands on its own.
    """
    owner = current(found.item.standard)
    drawing = None if owner is None or found.dimensions is None else _DRAWINGS.get(owner.family)
    return None if drawing is None else drawing(found.designation, Sizes.of(found, links or {}))
