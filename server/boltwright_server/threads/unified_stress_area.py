"""Tensile stress areas of Unified inch threads.

ASME B1.1-2003, formulas for the tensile stress area: one for every strength, one for high strength by name.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import Bounds
from ..quantities.keeper import remembered
from ..quantities.rounding import significant
from ..standards import rules
from .geometry import PI
from .unified import UnifiedSize
from .unified_profile import STRESS_FACTOR

_STANDARD = "ASME B1.1"
#: 3/16 H in pitches.
_HIGH_STRENGTH_FACTOR = Decimal("0.16238")
_DIGITS = 4


def unrounded_stress_area(size: UnifiedSize) -> Decimal:
    """Return As = pi/4 (D - 0.97427858 P)^2 in in2, unrounded."""
    mean = size.d - STRESS_FACTOR / size.threads_per_inch
    return PI / 4 * mean * mean


def unrounded_high_strength_area(size: UnifiedSize, d2_min: Decimal) -> Decimal:
    """Return As = pi (d2 min / 2 - 0.16238 / n)^2 in in2, unrounded; `d2_min` in inch, of the class in question."""
    radius = d2_min / 2 - _HIGH_STRENGTH_FACTOR / size.threads_per_inch
    return PI * radius * radius


@remembered(4096)
def nominal_stress_area(size: UnifiedSize) -> Bounds:
    """Return As in in2 as printed, or from the formula to four significant digits where no print was seen.

    ASME B1.1-2003, formula for the tensile stress area.
    """
    row = rules(_STANDARD).table("stress_area").find(size.d, size.threads_per_inch)
    if row is not None:
        area, basis = row.number("As"), row.basis("As")
    else:
        area = significant(unrounded_stress_area(size), _DIGITS)
        basis = rules(_STANDARD).clause("formula for the tensile stress area")
    return Bounds("As", area, area, "in2", basis, area)


def stress_areas(size: UnifiedSize, pitch_diameter: Bounds) -> dict[str, Bounds]:
    """Return the nominal area and, by the name `high_strength`, the smaller one for steels of high strength."""
    assert pitch_diameter.min is not None
    area = significant(unrounded_high_strength_area(size, pitch_diameter.min), _DIGITS)
    note = "used over 100 ksi by handbooks, over 180 ksi by another source; product standards use the nominal area"
    rule = rules(_STANDARD).clause("formula for the tensile stress area of high strength")
    basis = rule.computed(None, pitch_diameter.basis.checked, note=note)
    return {"nominal": nominal_stress_area(size), "high_strength": Bounds("As", area, area, "in2", basis, area)}
