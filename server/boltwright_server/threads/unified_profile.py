"""Basic profile of the Unified thread in inch, with the decimals of its standard.

ASME B1.1-2003, formulas of the basic and design profiles; ASME B1.30-2002: constants to eight decimals, heights to six.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities.keeper import remembered
from ..quantities.rounding import half_even

#: Twice 3/8 H, 5/8 H, 11/16 H and 9/16 H in pitches, H = 0.86602540 P.
PITCH_FACTOR = Decimal("0.64951905")
MINOR_FACTOR = Decimal("1.08253175")
ROOT_FACTOR = Decimal("1.19078493")
STRESS_FACTOR = Decimal("0.97427858")
H_FACTOR = Decimal("0.86602540")
#: Least radius of a UNR root in pitches (memory).
ROOT_RADIUS_FACTOR = Decimal("0.10825318")


def six_places(value: Decimal) -> Decimal:
    """Round a tolerance, an allowance or a height: six decimals, ties to even. ASME B1.30-2002."""
    return half_even(value, "0.000001")


def four_places(value: Decimal) -> Decimal:
    """Round a limit: four decimals, ties to even. ASME B1.30-2002."""
    return half_even(value, "0.0001")


def pitch_height(P: Decimal) -> Decimal:
    """Return d - d2 in inch, to six decimals."""
    return six_places(PITCH_FACTOR * P)


def minor_height(P: Decimal) -> Decimal:
    """Return d - d1 in inch, to six decimals."""
    return six_places(MINOR_FACTOR * P)


def root_height(P: Decimal) -> Decimal:
    """Return d - d3 of the UNR root in inch, to six decimals."""
    return six_places(ROOT_FACTOR * P)


def minor_diameter(d: Decimal, P: Decimal) -> Decimal:
    """Return the basic minor diameter D1 in inch before it is rounded as a limit."""
    return d - minor_height(P)


@remembered(4096)
def cube_root(value: Decimal) -> Decimal:
    """Return the cube root, exact where it is a finite decimal: a tie must still be a tie after it.

    Kept: a system has under 200 pitches and diameters, and the root is the slow step of a limit.
    """
    return (value ** (Decimal(1) / 3)).quantize(Decimal("1E-20"))
