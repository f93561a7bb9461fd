"""Where the side view of a bolt or screw lies on paper, and at which scale."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from ..svg import Point
from .scaled import Scaled
from .sizes import Sizes

WIDTH = 110.0
#: Room for the figures of k at the left and of d at the right; those in inches are longer.
_MARGINS = {"mm": (19.0, 20.0), "in": (25.0, 23.0)}
#: More room at the left where the diameter of the head stands there.
_LEFT_DIAMETER = 4.0
_TALLEST_HEAD = 30.0
#: Heights of the rows of dimensions above the head.
_ONE_ROW, _TWO_ROWS = 10.0, 17.0
#: A part longer than this many diameters is drawn broken, else its head would be too small to read; this much of it
#: stays at least on the side of the head.
_LONGEST_UNBROKEN, _LEAST_AT_HEAD = 14, 4


@dataclass(frozen=True, slots=True)
class Head:
    """A shape of head: what it is called, half its breadth seen from the side, how it is drawn from side and top.

    `view_reach` is half the breadth of the view on the head. `diameters` stand left of the head, at most two;
    `depths` are measured from its top, each in a row of its own. `in_length`: the nominal length includes the head.
    """

    name: str
    reach: Callable[[Sizes], float]
    outline: Callable[[Side], list[str]]
    view: Callable[[Side, Point], list[str]]
    view_reach: Callable[[Sizes], float]
    diameters: tuple[str, ...] = ()
    depths: tuple[str, ...] = ()
    in_length: bool = False


@dataclass(frozen=True, slots=True)
class Side(Scaled):
    """Where the side view lies: `bearing` is the x from which lengths count, `axis` the y of the axis, on paper."""

    shape: Head
    bearing: float
    axis: float
    #: Where a part that is drawn broken is cut, and how much is left out from there; 0 where it is drawn whole.
    joint: float
    left_out: float

    def x(self, along: float) -> float:
        """Return the x on paper of a place so far from the bearing face; what is left out lies in the joint."""
        shown = along if along <= self.joint else max(self.joint, along - self.left_out)
        return self.bearing + self.scale * shown

    @property
    def reach(self) -> float:
        """Half the breadth of the head seen from the side."""
        return self.scale * self.shape.reach(self.sizes)

    @property
    def end(self) -> float:
        """The x of the end of the part."""
        return self.x(self.sizes.size("length"))

    @property
    def head(self) -> float:
        """The x of the top of the head."""
        return self.bearing - (0.0 if self.shape.in_length else self.on_paper("head_height"))

    @property
    def shank(self) -> float:
        """The x where the shank leaves the head."""
        return self.bearing + (self.on_paper("head_height") if self.shape.in_length else 0.0)

    @property
    def washer(self) -> tuple[float, float]:
        """Thickness and radius of the washer face; the edge of the head where the standard gives no face."""
        if "washer_face_diameter" not in self.sizes:
            return 0.0, self.hexagon.chamfer_radius if "width_across_flats" in self.sizes else self.reach
        return self.on_paper("washer_face_thickness"), self.on_paper("washer_face_diameter") / 2

    @property
    def thread_start(self) -> float:
        """The x where the full thread starts."""
        if "unthreaded_length" in self.sizes:
            return self.shank + self.on_paper("unthreaded_length")
        if "thread_length" not in self.sizes:
            return self.shank
        return max(self.shank, self.x(max(0.0, self.sizes.size("length") - self.sizes.size("thread_length"))))

    @property
    def has_plain_shank(self) -> bool:
        """Whether a part of the shank has no thread; a bolt shorter than its thread length has none."""
        return "body_diameter" in self.sizes and self.thread_start > self.shank


def placed(sizes: Sizes, shape: Head) -> Side:
    """Return the side view at the largest scale that the paper holds."""
    length = sizes.size("length")
    head = 0.0 if shape.in_length else sizes.size("head_height")
    left, right = _MARGINS[sizes.unit]
    left += _LEFT_DIAMETER * len(shape.diameters)
    joint, left_out = _broken(sizes, length)
    breadth = 2 * max(shape.reach(sizes), shape.view_reach(sizes))
    scale = min((WIDTH - left - right) / (length - left_out + head), _TALLEST_HEAD / breadth)
    rows = _ONE_ROW if "unthreaded_length" in sizes else _TWO_ROWS
    side = Side(sizes, scale, shape, left + scale * head, 0.0, joint, left_out)
    return replace(side, axis=rows + rise(side))


def _broken(sizes: Sizes, length: float) -> tuple[float, float]:
    """Where a long part is cut and how much is left out: never of the thread or of what its lengths end at."""
    ends = [sizes.size(id) for id in ("body_length", "grip_length") if id in sizes]
    at_end = max(_LONGEST_UNBROKEN / 2 * sizes.d, length - min(ends, default=length) + sizes.d)
    shown = max(_LONGEST_UNBROKEN * sizes.d, at_end + _LEAST_AT_HEAD * sizes.d)
    return (shown - at_end, length - shown) if length > shown else (length, 0.0)


def rise(side: Side) -> float:
    """Return how far above the axis the first row of dimensions lies: clear of the head, its labels and that of dw."""
    above = 10.0 if len(side.shape.diameters) > 1 else 4.0
    return max(side.reach + above, side.radius + 7.5)
