"""Drawing of a thread's tolerance zones: the profile to scale, and the deviations from the basic sizes.

ISO 965-1:2013 and ASME B1.1-2003 show zones against the basic profile; the layout is our own.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from ...quantities import Bounds
from ...specification import Specification
from ...threads import ThreadClass, ThreadLimits, ThreadSize, limits
from ..figures import written
from ..svg import Point, document, element, path
from ..symbols import Symbol
from .deviation_chart import ACCENT, SHADE, Zone, chart
from .dimension import Label, Links
from .pen import INK, THIN, centre_line, hatching, thin
from .thread_profile import Outline, profile_of

_WIDTH = 110.0
#: Millimetres on paper for one pitch.
_PITCH = 44.0
_LEFT, _RIGHT = 3.0, 72.0
_TOP, _MATERIAL = 6.0, 6.0
_DIAMETERS = ("major_diameter", "pitch_diameter", "minor_diameter")


def thread_drawing(found: Specification, links: Links | None = None) -> str | None:
    """Return the tolerance zones of a specification's thread as SVG, or None where it has no thread."""
    if found.tolerance is None:
        return None
    return thread_zones(found.designation, found.size, found.tolerance, links)


def thread_zones(designation: str, size: ThreadSize, tolerance: ThreadClass, links: Links | None = None) -> str:
    """Return the drawing of one member of a thread as SVG.

    `links` leads the figures of `thread_major_diameter`, `thread_pitch_diameter`, `thread_minor_diameter` and
    `root_diameter` to an address; without it the drawing stands on its own.

    Raises:
        NotStandardised, UnknownName, Contradiction: as `threads.limits`.
    """
    found = limits(size, tolerance)
    zones = [Zone.of(f"thread_{id}", found.limits[id], size, links or {}) for id in _DIAMETERS]
    profile, below = _profile(found, zones, links or {})
    bars, bottom = chart(zones, found.unit, _LEFT, below + 11.0, _WIDTH - _LEFT)
    return document(
        "thread",
        _WIDTH,
        bottom + 4.0,
        f"{designation}: tolerance zones of the thread, class {found.tolerance_class}",
        f"Profile of the {found.member} thread, to scale: the material hatched, the tolerance zone shaded, the basic "
        "profile and the basic diameters as chain lines. Below, the deviations of each diameter from its basic size.",
        *profile,
        *bars,
    )


def _profile(found: ThreadLimits, zones: list[Zone], links: Links) -> tuple[list[str], float]:
    """Return the profile and its lower end."""
    three = profile_of(found)
    external = found.member == "external"
    highest, lowest = max(one.outer for one in three.all), min(one.inner for one in three.all)
    scale = _PITCH / float(found.pitch)
    top = _TOP if external else _TOP + _MATERIAL

    def placed(outline: Outline) -> list[Point]:
        points = outline.points()
        return [(_LEFT + 0.75 * _PITCH + scale * x, top + scale * (highest / 2 - radius)) for x, radius in points]

    def level(diameter: float) -> float:
        return top + scale * (highest - diameter) / 2

    below = level(lowest) + (_MATERIAL if external else 2.0)
    edge = below if external else top - _MATERIAL
    least = placed(three.minimum_material)
    parts = [
        hatching([*least, (_LEFT + 1.5 * _PITCH, edge), (_LEFT, edge)]),
        _zone([*placed(three.maximum_material), *reversed(least)]),
        _chain(placed(three.basic)),
        *(_basic_line(one, level(float(one.basic))) for one in zones),
    ]
    if external:
        parts.append(_root(found.limits["root_diameter"], level, links))
    return parts, below


def _zone(outline: list[Point]) -> str:
    return element(
        "path",
        d=path(outline, close=True),
        fill=ACCENT,
        fill_opacity=SHADE,
        stroke=INK,
        stroke_width=THIN,
        stroke_linejoin="round",
        class_="zone",
    )


def _chain(points: list[Point]) -> str:
    return "".join(centre_line(start, end) for start, end in pairwise(points))


def _basic_line(zone: Zone, at: float) -> str:
    label = Label(zone.id, Symbol.of(zone.symbol), (written(zone.basic),), zone.href)
    return centre_line((_LEFT, at), (_RIGHT, at)) + label.drawn(_RIGHT + 1.5, at)


def _root(root: Bounds, level: Callable[[float], float], links: Links) -> str:
    shown = next(side for side in (root.min, root.max) if side is not None)
    at, label = level(float(shown)), Label.of("root_diameter", root, links)
    line = thin([(_LEFT + 1.25 * _PITCH, at), (_RIGHT + 19.0, at)])
    return element("g", line, label.drawn(_RIGHT + 20.0, at), data_figure=label.id)
