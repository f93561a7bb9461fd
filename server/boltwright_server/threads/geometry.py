"""Basic profile of the 60 degree screw thread.

ISO 68-1:1998 (profile) and ISO 724:1993 (basic dimensions). Lengths in mm.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities.rounding import half_up

#: Height of the fundamental triangle in pitches, sqrt(3)/2. The four-digit 0.866 gives wrong third decimals.
H_PER_PITCH = Decimal(3).sqrt() / 2
PI = Decimal("3.141592653589793238462643383")


def pitch_diameter(d: Decimal, pitch: Decimal) -> Decimal:
    """Return the unrounded basic pitch diameter d2 = D2 = d - 2 * 3/8 H.

    ISO 724:1993, clause 3. Result in mm, unrounded.
    """
    return d - H_PER_PITCH * pitch * 3 / 4


def minor_diameter(d: Decimal, pitch: Decimal) -> Decimal:
    """Return the unrounded basic minor diameter d1 = D1 = d - 2 * 5/8 H.

    ISO 724:1993, clause 3. Result in mm, unrounded.
    """
    return d - H_PER_PITCH * pitch * 5 / 4


def root_diameter(d: Decimal, pitch: Decimal) -> Decimal:
    """Return the unrounded diameter d3 = d1 - H/6 of the root rounded with H/6.

    ISO 898-1:2013, clause 9.1.6.1. Result in mm, unrounded.
    """
    return minor_diameter(d, pitch) - H_PER_PITCH * pitch / 6


def tabulated(diameter: Decimal) -> Decimal:
    """Round a basic diameter as it is printed.

    ISO 724:1993, Table 1: three decimals, ties up. Deviations are added to this value, not to the unrounded one.
    """
    return half_up(diameter, "0.001")
