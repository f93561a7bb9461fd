"""The sizes that a part is drawn with: the nominal one, else the middle of the limits, else the only limit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ...quantities import Bounds
from ...specification import Specification
from ...threads.geometry import minor_diameter
from .dimension import Label, Links

#: Said in the description of every drawing, before the unit.
DRAWN_AT = "Each size is drawn at its nominal value, else at the middle of its limits, else at its only limit;"
_THREAD = ("thread_major_diameter", "thread_minor_diameter")


def drawn_size(limits: Bounds) -> float:
    """Return the size that is drawn, in the unit of its limits.

    Raises:
        ValueError: the bounds hold no figure at all.
    """
    if limits.nominal is not None:
        return float(limits.nominal)
    held = [float(side) for side in (limits.min, limits.max) if side is not None]
    if not held:
        raise ValueError(f"{limits.symbol}: nothing to draw")
    return sum(held) / len(held)


@dataclass(frozen=True, slots=True)
class Sizes:
    """Limits of a part by id with the links of their figures; lengths in `unit`."""

    limits: Mapping[str, Bounds]
    links: Links
    d: float
    #: Basic minor diameter, where the thread's root is drawn.
    root: float
    unit: str

    @classmethod
    def of(cls, found: Specification, links: Links) -> Sizes:
        """Return the sizes of a product."""
        limits = dict(found.dimensions.dimensions) if found.dimensions is not None else {}
        for id in _THREAD:
            bounds = found.characteristics[id].bounds if id in found.characteristics else None
            if bounds is not None:
                limits[id] = bounds
        return cls(
            limits,
            links,
            float(found.size.d),
            float(minor_diameter(found.size.d, found.size.pitch)),
            found.dimensions.unit if found.dimensions is not None else "mm",
        )

    def __contains__(self, id: str) -> bool:
        return id in self.limits

    def size(self, id: str) -> float:
        """Return the size that is drawn."""
        return drawn_size(self.limits[id])

    def label(self, id: str) -> Label:
        """Return what stands at the dimension."""
        return Label.of(id, self.limits[id], self.links)
