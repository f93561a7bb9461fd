"""A view of a part on paper: its sizes at the scale of the drawing."""

from __future__ import annotations

from dataclasses import dataclass

from .hexagon import Hexagon
from .sizes import Sizes


@dataclass(frozen=True, slots=True)
class Scaled:
    """Sizes of a part and the scale at which they are drawn."""

    sizes: Sizes
    scale: float

    def on_paper(self, id: str) -> float:
        """Return a size on paper, 0 where the standard gives none."""
        return self.scale * self.sizes.size(id) if id in self.sizes else 0.0

    @property
    def hexagon(self) -> Hexagon:
        """The hexagon of a head or nut."""
        return Hexagon(self.on_paper("width_across_flats"))

    @property
    def radius(self) -> float:
        """Radius of the thread's major diameter."""
        return self.scale * self.sizes.d / 2

    @property
    def root(self) -> float:
        """Radius of the thread's basic minor diameter: the root of a bolt's thread, the hole of a nut."""
        return self.scale * self.sizes.root / 2
