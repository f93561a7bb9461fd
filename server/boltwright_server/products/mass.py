"""Mass of 1000 pieces from nominal sizes: solid geometry, no tolerances, no coating.

Common practice: density 7.85 g/cm3. The hexagon has a 30 degree chamfer, a rolled thread weighs as much as a rod of its
pitch diameter, a tapped thread leaves the mean section of the basic profile of ISO 68-1 open. Floats are in order here:
the result is for planning and weighing, rounded to three digits, never a limit.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from math import pi, radians, sqrt, tan

from ..quantities import Bounds, unpublished
from ..quantities.keeper import remembered
from ..quantities.rounding import significant
from ..threads import ThreadSize
from ..threads.geometry import minor_diameter, pitch_diameter
from . import solids

DENSITY_G_PER_MM3 = 7.85e-3
_MM_PER_INCH = 25.4
#: Diameter of the chamfer circle of a hexagon in widths across flats, and its angle.
_CHAMFER_CIRCLE, _CHAMFER = 0.95, 30.0
_COUNTERSINK = radians(30)
_RULE = "geometry from nominal sizes, density 7.85 g/cm3"
_NOTE = "nominal: no tolerances, no coating; actual mass differs by a few percent"


@dataclass(frozen=True, slots=True)
class Part:
    """What the solids are made from; lengths in one unit. `nominal` is by dimension id."""

    size: ThreadSize
    length: float
    thread_length: float | None
    nominal: Mapping[str, float]

    @property
    def d(self) -> float:
        """Nominal diameter."""
        return float(self.size.d)

    def __getitem__(self, id: str) -> float:
        return self.nominal[id]


def mass_per_1000(head: str, item: str, part: Part, inch: bool) -> Bounds | None:
    """Return the nominal mass of 1000 pieces in kg, or None where the form of the part is not held.

    Common practice, see the module.
    """
    volume = _SOLIDS.get((item, head))
    if volume is None:
        return None
    try:
        cubic = volume(part)
    except KeyError:
        return None
    grams = cubic * (_MM_PER_INCH**3 if inch else 1.0) * DENSITY_G_PER_MM3
    value = significant(Decimal(repr(grams)), 3)
    return Bounds("mass", None, None, "kg", unpublished("-", _RULE, "common practice", "formula", _NOTE), value)


def nominal_sizes(dimensions: Mapping[str, Bounds]) -> dict[str, float]:
    """Return the nominal size of each dimension, or the middle of its limits, or its only limit."""
    found = {}
    for id, bounds in dimensions.items():
        sides = [bounds.nominal] if bounds.nominal is not None else [bounds.min, bounds.max]
        held = [float(side) for side in sides if side is not None]
        if held:
            found[id] = sum(held) / len(held)
    return found


def hexagon(s: float, height: float, chamfers: int) -> float:
    """Return the volume of a hexagonal prism whose corners are chamfered at one or both ends."""
    return sqrt(3) / 2 * s * s * height - chamfers * _chamfer(s)


@remembered(1024)
def _chamfer(s: float) -> float:
    circle = _CHAMFER_CIRCLE * s
    return solids.volume(solids.chamfer(s, circle), {"s": s, "dc": circle, "chi": _CHAMFER})


def _disc(diameter: float) -> float:
    return pi / 4 * diameter * diameter


def frustum(large: float, small: float, height: float) -> float:
    """Return the volume of a truncated cone."""
    return pi * height / 12 * (large * large + large * small + small * small)


def tapped_section(size: ThreadSize) -> float:
    """Return the mean open section of a tapped thread: flats of P/4 at D1 and P/8 at D, flanks between."""
    small, large = float(minor_diameter(size.d, size.pitch)) / 2, float(size.d) / 2
    flanks = (small * small + small * large + large * large) / 3
    return pi * (small * small / 4 + large * large / 8 + flanks * 5 / 8)


def _rod(part: Part) -> float:
    """A part threaded over its whole length."""
    return _disc(float(pitch_diameter(part.size.d, part.size.pitch))) * part.length


def _shank(part: Part, from_head: float = 0.0) -> float:
    """Plain shank and thread under the head; `from_head` is the part of the length that the head takes."""
    threaded = part.length if part.thread_length is None else min(part.thread_length, part.length)
    thread = _disc(float(pitch_diameter(part.size.d, part.size.pitch)))
    plain = max(part.length - threaded - from_head, 0.0)
    return _disc(part.d) * plain + thread * min(threaded, part.length - from_head)


def _socket(part: Part) -> float:
    return sqrt(3) / 2 * part["socket_width_across_flats"] ** 2 * part["socket_depth"]


def _hexagon_bolt(part: Part) -> float:
    """The washer face is turned from the hexagon where the standard gives both of its limits."""
    s, face = part["width_across_flats"], part.nominal.get("washer_face_thickness", 0.0)
    turned = face * (sqrt(3) / 2 * s * s - _disc(part.nominal.get("washer_face_diameter", s)))
    return hexagon(s, part["head_height"], 1) - turned + _shank(part)


def _cylinder_screw(part: Part) -> float:
    return _disc(part["head_diameter"]) * part["head_height"] - _socket(part) + _shank(part)


def _countersunk_screw(part: Part) -> float:
    """The length includes the 90 degree head, drawn to its theoretical diameter."""
    large = part["head_diameter_theoretical"]
    height = (large - part.d) / 2
    return frustum(large, part.d, height) - _socket(part) + _shank(part, height)


def _button_screw(part: Part) -> float:
    radius, k = part["head_diameter"] / 2, part["head_height"]
    return pi * k / 6 * (3 * radius * radius + k * k) - _socket(part) + _shank(part)


def _set_screw(part: Part) -> float:
    if "point_diameter" not in part.nominal or "point_length" in part.nominal:
        raise KeyError("only the flat point is a plain rod")
    return _rod(part) - _socket(part)


def _hexagon_nut(part: Part) -> float:
    m = part["nut_height"]
    hole = tapped_section(part.size)
    inner = float(minor_diameter(part.size.d, part.size.pitch))
    outer = part.nominal.get("bearing_face_inner_diameter", inner)
    depth = max(outer - inner, 0.0) / 2 * tan(_COUNTERSINK)
    sunk = frustum(outer, inner, depth) - hole * depth
    return hexagon(part["width_across_flats"], m, 2) - hole * m - 2 * max(sunk, 0.0)


def _washer(part: Part) -> float:
    return (_disc(part["outer_diameter"]) - _disc(part["inner_diameter"])) * part["thickness"]


#: (item, shape of the head or body) -> volume. Flanges, inserts and dog, cup and cone points are not held.
_SOLIDS: dict[tuple[str, str], Callable[[Part], float]] = {
    ("bolt or screw", "hexagon"): _hexagon_bolt,
    ("bolt or screw", "cylinder"): _cylinder_screw,
    ("bolt or screw", "countersunk"): _countersunk_screw,
    ("bolt or screw", "button"): _button_screw,
    ("set screw", "none"): _set_screw,
    ("threaded rod", "none"): _rod,
    ("nut", "hexagon"): _hexagon_nut,
    ("washer", "ring"): _washer,
}
