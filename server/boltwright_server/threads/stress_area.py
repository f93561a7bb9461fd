"""Nominal tensile stress area of a metric thread.

ISO 898-1:2013, clause 9.1.6.1: As,nom = pi/4 * ((d2 + d3) / 2)^2.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities.keeper import remembered
from ..quantities.rounding import significant
from .geometry import PI, pitch_diameter, root_diameter
from .iso_metric import MetricSize


def unrounded_stress_area(size: MetricSize) -> Decimal:
    """Return As in mm2 from the unrounded d2 and d3; rounded ones print M3.5 and M24 wrong."""
    mean = (pitch_diameter(size.d, size.pitch) + root_diameter(size.d, size.pitch)) / 2
    return PI / 4 * mean * mean


@remembered()
def nominal_stress_area(size: MetricSize) -> Decimal:
    """Return As,nom in mm2 to the three significant digits in which loads are computed."""
    return significant(unrounded_stress_area(size), 3)
