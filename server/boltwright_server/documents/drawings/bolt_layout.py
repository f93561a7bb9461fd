"""Where the side view of a hexagon bolt lies on paper, and at which scale."""

from __future__ import annotations

from dataclasses import dataclass

from .hexagon import Hexagon
from .sizes import Sizes

WIDTH = 110.0
#: Room for the figures of k at the left and of d at the right; those in inches are longer.
_MARGINS = {"mm": (19.0, 20.0), "in": (25.0, 23.0)}
_TALLEST_HEAD = 30.0
#: Heights of the rows of dimensions above the head.
_ONE_ROW, _TWO_ROWS = 10.0, 17.0
#: A part longer than this many diameters is drawn broken, else its head would be too small to read.
_LONGEST_UNBROKEN = 14


@dataclass(frozen=True, slots=True)
class Side:
    """Where the side view lies: `bearing` is the x of the bearing face, `axis` the y of the axis, on paper."""

    sizes: Sizes
    scale: float
    bearing: float
    axis: float
    #: Millimetres of the part left out at its middle; 0 where it is drawn whole.
    left_out: float

    def x(self, along: float) -> float:
        """Return the x on paper of a place `along` mm from the bearing face."""
        middle = self.sizes.size("length") / 2
        return self.bearing + self.scale * (along if along <= middle else along - self.left_out)

    @property
    def hexagon(self) -> Hexagon:
        """The hexagon of the head, on paper."""
        return Hexagon(self.scale * self.sizes.size("width_across_flats"))

    @property
    def radius(self) -> float:
        """Radius of the thread's major diameter."""
        return self.scale * self.sizes.d / 2

    @property
    def root(self) -> float:
        """Radius of the thread's basic minor diameter."""
        return self.scale * self.sizes.root / 2

    @property
    def end(self) -> float:
        """The x of the end of the part."""
        return self.x(self.sizes.size("length"))

    @property
    def head(self) -> float:
        """The x of the top of the head."""
        return self.bearing - self.scale * self.sizes.size("head_height")

    @property
    def washer(self) -> tuple[float, float]:
        """Thickness and radius of the washer face; the chamfer where the standard gives no face."""
        if "washer_face_diameter" not in self.sizes:
            return 0.0, self.hexagon.chamfer_radius
        thickness = self.sizes.size("washer_face_thickness") if "washer_face_thickness" in self.sizes else 0.0
        return self.scale * thickness, self.scale * self.sizes.size("washer_face_diameter") / 2

    @property
    def thread_start(self) -> float:
        """The x where the full thread starts."""
        if "unthreaded_length" in self.sizes:
            return self.x(self.sizes.size("unthreaded_length"))
        if "thread_length" not in self.sizes:
            return self.bearing
        return self.x(max(0.0, self.sizes.size("length") - self.sizes.size("thread_length")))

    @property
    def has_plain_shank(self) -> bool:
        """Whether a part of the shank has no thread; a bolt shorter than its thread length has none."""
        return "body_diameter" in self.sizes and self.thread_start > self.bearing


def placed(sizes: Sizes) -> Side:
    """Return the side view at the largest scale that the paper holds."""
    length, head, s = sizes.size("length"), sizes.size("head_height"), sizes.size("width_across_flats")
    left, right = _MARGINS[sizes.unit]
    left_out = max(0.0, length - _LONGEST_UNBROKEN * sizes.d)
    scale = min((WIDTH - left - right) / (length - left_out + head), _TALLEST_HEAD / Hexagon(s).corner / 2)
    rows = _ONE_ROW if "unthreaded_length" in sizes else _TWO_ROWS
    above = rise(scale * Hexagon(s).corner, scale * sizes.d / 2)
    return Side(sizes, scale, left + scale * head, rows + above, left_out)


def rise(corner: float, radius: float) -> float:
    """Return how far above the axis the first row of dimensions lies: clear of the head and of the label of dw."""
    return max(corner + 4.0, radius + 7.5)
