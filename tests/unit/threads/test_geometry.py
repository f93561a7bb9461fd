"""Basic profile against its definition, drawn from the fundamental triangle and not from the formulas of the engine.

ISO 68-1:1998: an equilateral triangle of side P, its apexes cut by H/8 at the crest and H/4 at the root; the pitch
line is where thread and groove are equally wide.
"""

from decimal import Decimal
from fractions import Fraction
from math import hypot, isclose, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltwright_server.threads import sizes
from boltwright_server.threads.geometry import (
    H_PER_PITCH,
    PI,
    minor_diameter,
    pitch_diameter,
    root_diameter,
    tabulated,
)

DIAMETERS = st.decimals("1", "300", places=2, allow_nan=False, allow_infinity=False)
PITCHES = st.decimals("0.2", "8", places=3, allow_nan=False, allow_infinity=False)


def triangle_height(pitch: Decimal) -> float:
    """Height over a side of an equilateral triangle, by Pythagoras."""
    return sqrt(float(pitch) ** 2 - (float(pitch) / 2) ** 2)


def flank_width(pitch: Decimal, below_apex: float) -> float:
    """Width of the triangle `below_apex` its apex: sides of equal length, so width is to side as depth to height."""
    return float(pitch) * below_apex / triangle_height(pitch)


@given(PITCHES)
def test_the_height_is_that_of_an_equilateral_triangle(pitch: Decimal) -> None:
    height = float(H_PER_PITCH * pitch)
    assert isclose(hypot(height, float(pitch) / 2), float(pitch), rel_tol=1e-14)


@given(DIAMETERS, PITCHES)
def test_on_the_pitch_line_thread_and_groove_are_equally_wide(d: Decimal, pitch: Decimal) -> None:
    """The sharp apex stands H/8 outside the major diameter."""
    depth = float(d - pitch_diameter(d, pitch)) / 2 + triangle_height(pitch) / 8
    assert isclose(flank_width(pitch, depth), float(pitch) / 2, rel_tol=1e-9)


@given(DIAMETERS, PITCHES)
def test_the_crest_is_an_eighth_and_the_root_a_quarter_of_the_pitch(d: Decimal, pitch: Decimal) -> None:
    height = triangle_height(pitch)
    at_minor = float(d - minor_diameter(d, pitch)) / 2 + height / 8
    assert isclose(flank_width(pitch, height / 8), float(pitch) / 8, rel_tol=1e-12)
    assert isclose(float(pitch) - flank_width(pitch, at_minor), float(pitch) / 4, rel_tol=1e-9)


@given(DIAMETERS, PITCHES)
def test_the_depth_of_the_basic_profile_is_five_eighths_of_the_height(d: Decimal, pitch: Decimal) -> None:
    assert isclose(float(d - minor_diameter(d, pitch)) / 2, 5 * triangle_height(pitch) / 8, rel_tol=1e-9)


@given(DIAMETERS, PITCHES)
def test_a_root_rounded_with_h_6_touches_the_flanks(d: Decimal, pitch: Decimal) -> None:
    """A circle of radius H/6 tangent to both flanks of the groove reaches H/6 from the sharp root: d3 = d1 - H/6."""
    height = triangle_height(pitch)
    centre_from_apex = 2 * height / 6  # the flanks stand 30 degrees to the axis of the groove: r / sin 30
    deepest = centre_from_apex - height / 6
    assert isclose(float(d - root_diameter(d, pitch)) / 2, 7 * height / 8 - deepest, rel_tol=1e-9)


@pytest.mark.parametrize("size", list(sizes()), ids=lambda size: f"{size.d}x{size.pitch}")
def test_three_decimals_are_those_of_the_exact_root(size) -> None:  # type: ignore[no-untyped-def]
    """ISO 724: d2 = d - 0.649 519 053 P; proved by squares of fractions, without any square root."""
    d2 = Fraction(tabulated(pitch_diameter(size.d, size.pitch)))
    half = Fraction(1, 2000)
    low, high = (4 * (Fraction(size.d) - d2 - sign * half) / (3 * Fraction(size.pitch)) for sign in (1, -1))
    assert low**2 < Fraction(3, 4) < high**2


@pytest.mark.parametrize(
    ("pitch", "d2", "d1"),
    [("1", "5.350", "4.917"), ("3", "22.051", "20.752"), ("5", "46.752", "44.587"), ("0.6", "3.110", "2.850")],
)
def test_four_digit_constants_would_be_wrong_here(pitch: str, d2: str, d1: str) -> None:
    """ISO 724 prints M6, M24, M50x5 and M3.5; 0.6495 P or 1.0825 P give another third decimal."""
    d = {"1": "6", "3": "24", "5": "50", "0.6": "3.5"}[pitch]
    P, nominal = Decimal(pitch), Decimal(d)
    assert str(tabulated(pitch_diameter(nominal, P))) == d2
    assert str(tabulated(minor_diameter(nominal, P))) == d1
    short = (tabulated(nominal - Decimal("0.6495") * P), tabulated(nominal - Decimal("1.0825") * P))
    assert (str(short[0]), str(short[1])) != (d2, d1)


def test_pi_is_pi() -> None:
    from math import pi

    assert float(PI) == pi
