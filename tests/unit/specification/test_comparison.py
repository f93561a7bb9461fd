"""The comparison of two limits: direction, and whether what meets the other meets what was asked.

17 000 lbf are 75 619.8 N, 0.750 in are 19.05 mm (1 lbf = 4.4482216152605 N, 1 in = 25.4 mm exactly).
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltwright_server.quantities import Basis, Bounds
from boltwright_server.specification.comparison import Group, compared

BASIS = Basis("made up", "1", "Table 1", "tabulated", "original")
SIDE = st.none() | st.integers(0, 30)
#: Direction when the sides change places.
REVERSE = {
    "larger": "smaller",
    "wider limits": "closer limits",
    "only asked": "only in the other",
    **{"smaller": "larger", "closer limits": "wider limits", "only in the other": "only asked"},
}


def limits(low: str | int | None, high: str | int | None, unit: str = "mm") -> Bounds:
    return Bounds("x", None if low is None else Decimal(low), None if high is None else Decimal(high), unit, BASIS)


@pytest.mark.parametrize(
    ("id", "group", "asked", "other", "direction", "meets"),
    [
        ("width_across_flats", "dimension", limits("15.73", "16.00"), limits("17", "17"), "larger", False),
        ("width_across_flats", "dimension", limits("15.73", "16.00"), limits("15.80", "15.90"), "closer limits", True),
        ("width_across_flats", "dimension", limits("15.73", "16.00"), limits("15.57", "16.27"), "wider limits", False),
        ("width_across_flats", "dimension", limits("17.73", "18.00"), limits("0.725", "0.750", "in"), "larger", False),
        ("tensile_load", "mechanical", limits(67400, None, "N"), limits(17000, None, "lbf"), "stronger", True),
        ("tensile_load", "mechanical", limits(75620, None, "N"), limits(17000, None, "lbf"), "weaker", False),
        ("tensile_strength", "mechanical", limits(800, None, "MPa"), limits(1040, None, "MPa"), "stronger", True),
        ("hardness_vickers", "mechanical", limits(250, 320, "HV"), limits(320, 380, "HV"), "harder", False),
        ("hardness_vickers", "mechanical", limits(250, 320, "HV"), limits(255, 335, "HV"), "harder", False),
        ("elongation", "mechanical", limits(12, None, "%"), limits(9, None, "%"), "lower", False),
        ("proof_stress", "mechanical", limits(640, None, "MPa"), limits(640, 700, "MPa"), "closer limits", True),
        ("body_diameter", "dimension", limits("9.78", "10.00"), limits("9.64", "10.00"), "wider limits", False),
        ("temperature", "mechanical", limits(425, None, "Cel"), limits(800, None, "degF"), "not comparable", None),
        ("fillet_radius", "dimension", limits("0.4", None), None, "only asked", False),
        ("fillet_radius", "dimension", None, limits("0.4", None), "only in the other", None),
    ],
)
def test_direction_and_safety(
    id: str, group: Group, asked: Bounds | None, other: Bounds | None, direction: str, meets: bool | None
) -> None:
    found = compared(id, group, asked, other)
    assert found is not None
    assert (found.direction, found.meets) == (direction, meets)


def test_equal_limits_in_another_unit_are_no_difference() -> None:
    assert compared("length", "dimension", limits("25.4", "50.8"), limits(1, 2, "in")) is None
    assert compared("length", "dimension", None, None) is None
    assert compared("length", "dimension", limits("16.00", None), limits("16", None)) is None


@given(SIDE, SIDE, SIDE, SIDE, st.integers(0, 30))
def test_what_meets_the_other_meets_the_asked_exactly_where_it_is_said(
    low: int | None, high: int | None, other_low: int | None, other_high: int | None, value: int
) -> None:
    """Asked of every value on a grid that goes one beyond the limits on both sides."""
    if (low is not None and high is not None and low > high) or (
        other_low is not None and other_high is not None and other_low > other_high
    ):
        return
    asked, other = limits(low, high), limits(other_low, other_high)
    found, back = compared("x", "dimension", asked, other), compared("x", "dimension", other, asked)
    if found is None or back is None:
        assert (found, back) == (None, None)
        assert (low, high) == (other_low, other_high)
        return
    grid = [Fraction(one) for one in range(-1, 32)]
    assert found.meets == all(within(one, asked) for one in grid if within(one, other))
    assert back.direction == REVERSE[found.direction]


def within(value: Fraction, bounds: Bounds) -> bool:
    return (bounds.min is None or value >= Fraction(bounds.min)) and (
        bounds.max is None or value <= Fraction(bounds.max)
    )
