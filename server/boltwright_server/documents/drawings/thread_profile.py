"""The 60 degree profile of a thread at its basic, maximum and minimum material sizes, to scale.

ISO 68-1:1998 (basic profile), ISO 965-1:2013, clause 11 (rounded root of external threads).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians, sin, sqrt

from ...threads import ThreadLimits
from ..svg import Point

_FLANK = 1 / sqrt(3)
#: Height of the fundamental triangle in pitches.
_HEIGHT = sqrt(3) / 2
#: Degrees along a rounded root, between its tangents to the flanks.
_ROOT_STEPS = range(210, 331, 15)
_DIAMETERS = ("major_diameter", "pitch_diameter", "minor_diameter")


@dataclass(frozen=True, slots=True)
class Outline:
    """A ridge at x = 0 with half a groove and half a ridge at each side; diameters and pitch in one unit.

    The space inside a nut has the shape of a bolt: its outer diameter is D, its inner one D1.
    """

    outer: float
    pitch_diameter: float
    inner: float
    pitch: float
    rounded: bool = False

    def points(self) -> list[Point]:
        """Return (x, radius) from x = -3/4 P to 3/4 P."""
        reach, top = 0.75 * self.pitch, self.half_thickness(self.outer)
        right = [(top, self.outer / 2), *self._groove(), (reach, self.pitch_diameter / 2)]
        return [(-x, radius) for x, radius in reversed(right)] + right

    def half_thickness(self, diameter: float) -> float:
        """Return half the thickness of the ridge at a diameter."""
        return self.pitch / 4 - (diameter - self.pitch_diameter) / 2 * _FLANK

    def _groove(self) -> list[Point]:
        if not self.rounded:
            foot = self.half_thickness(self.inner)
            return [(foot, self.inner / 2), (self.pitch - foot, self.inner / 2)]
        radius = self.pitch / 8
        centre = self.inner / 2 + radius
        turns = [radians(step) for step in _ROOT_STEPS]
        return [(self.pitch / 2 + radius * cos(turn), centre + radius * sin(turn)) for turn in turns]


@dataclass(frozen=True, slots=True)
class Profile:
    """The basic outline and the two that bound the zone: at maximum and at minimum material."""

    basic: Outline
    maximum_material: Outline
    minimum_material: Outline

    @property
    def all(self) -> tuple[Outline, Outline, Outline]:
        """All three."""
        return self.basic, self.maximum_material, self.minimum_material


def profile_of(found: ThreadLimits) -> Profile:
    """Return the outlines of one member of a thread, in the unit of its limits."""
    d, pitch = float(found.nominal_diameter), float(found.pitch)
    height = _HEIGHT * pitch
    basic = Outline(d, d - 3 / 4 * height, d - 5 / 4 * height, pitch)
    if found.member == "external":
        return Profile(basic, _limit(found, "max"), _least_bolt(found, height))
    return Profile(basic, _limit(found, "min"), _greatest_nut_space(found, height))


def _limit(found: ThreadLimits, side: str) -> Outline:
    major, pitch_diameter, minor = (_value(found, id, side) for id in _DIAMETERS)
    return Outline(major, pitch_diameter, minor, float(found.pitch))


def _least_bolt(found: ThreadLimits, height: float) -> Outline:
    """The least bolt has a root rounded with P/8: d3 min = d2 min - H + P/4."""
    pitch, pitch_diameter = float(found.pitch), _value(found, "pitch_diameter", "min")
    root = pitch_diameter - height + pitch / 4
    return Outline(_value(found, "major_diameter", "min"), pitch_diameter, root, pitch, rounded=True)


def _greatest_nut_space(found: ThreadLimits, height: float) -> Outline:
    """No standard limits D upwards; drawn is where a gauge's truncation of H/24 would lie, D2 max + 11/12 H."""
    pitch_diameter = _value(found, "pitch_diameter", "max")
    major = pitch_diameter + 11 / 12 * height
    return Outline(major, pitch_diameter, _value(found, "minor_diameter", "max"), float(found.pitch))


def _value(found: ThreadLimits, id: str, side: str) -> float:
    return float(getattr(found.limits[id], side))
