"""Limits of Unified threads beside the published ones: engagement, coating, other prints, exact roots.

ASME B1.1, ASME B1.30 (decimals); the values of 1/2-13 and 3/4-10 are those of every handbook table, edition not stated.
"""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boltwright_server.designations import parse_thread
from boltwright_server.threads import ThreadLimits, limits
from boltwright_server.threads.unified_profile import cube_root, four_places, six_places
from boltwright_server.threads.unified_stress_area import nominal_stress_area


def of(designation: str) -> ThreadLimits:
    thread = parse_thread(designation)
    return limits(thread.size, thread.classes[0])


def pitch(designation: str) -> tuple[Decimal | None, Decimal | None]:
    bounds = of(designation).limits["pitch_diameter"]
    return bounds.min, bounds.max


@pytest.mark.parametrize(
    ("designation", "low", "high"),
    [
        ("1/2-13 UNC-2A", "0.4435", "0.4485"),
        ("1/2-13 UNC-3A", "0.4463", "0.4500"),
        ("1/2-13 UNC-2B", "0.4500", "0.4565"),
        ("1/2-13 UNC-3B", "0.4500", "0.4548"),
        ("3/4-10 UNC-2A", "0.6773", "0.6832"),
        ("3/4-10 UNC-2B", "0.6850", "0.6927"),
    ],
)
def test_pitch_diameters_of_every_handbook(designation: str, low: str, high: str) -> None:
    assert pitch(designation) == (Decimal(low), Decimal(high))


def test_left_hand_and_unr_change_no_limit_but_the_root() -> None:
    assert of("1/2-13 UNC-2A-LH").limits == of("1/2-13 UNC-2A").limits
    unr = of("1/2-13 UNRC-2A").limits
    assert {**unr, "root_radius": None} == {**of("1/2-13 UNC-2A").limits, "root_radius": None}
    assert unr["root_radius"].min == Decimal("0.0083")
    assert unr["root_radius"].basis.checked == "memory"


def test_a_stated_engagement_counts_only_outside_the_range_of_the_table() -> None:
    """9P holds from 5P to 15P, D up to 1.5 D; beyond, the length itself goes into the formula."""
    plain = pitch("1/2-24 UNS-2A")
    assert pitch("1/2-24 UNS-2A-LE 0.625") == plain  # 15P
    low, _ = pitch("1/2-24 UNS-2A-LE 1.5")
    assert plain[0] is not None
    assert low is not None
    assert low < plain[0]
    td2 = [of(f"1/2-24 UNS-2A{more}").tolerances["pitch_diameter"].max for more in ("", "-LE 1.5")]
    longer = six_places(Decimal("0.0015") * Decimal("1.5").sqrt()) - six_places(
        Decimal("0.0015") * Decimal("0.375").sqrt()
    )
    assert td2[0] is not None
    assert td2[1] is not None
    assert abs(td2[1] - td2[0] - longer) <= Decimal("0.000001")
    assert pitch("1/2-13 UNC-2A-LE 0.75") == pitch("1/2-13 UNC-2A")
    assert pitch("1/2-13 UNC-2A-LE 0.76") != pitch("1/2-13 UNC-2A")


def test_after_coating_2a_may_reach_the_basic_size_and_3a_has_no_room() -> None:
    """The allowance of 2A is the room of a coating: a plated bolt at basic size is good (common practice)."""
    after = of("1/2-13 UNC-2A").reference
    assert after["major_diameter_after_coating"].max == Decimal("0.5")
    assert after["pitch_diameter_after_coating"].max == Decimal("0.4500") == pitch("1/2-13 UNC-3A")[1]
    assert not [id for id in of("1/2-13 UNC-3A").reference if id.endswith("after_coating")]


def test_a_limit_that_other_prints_show_differently_says_so() -> None:
    basis = of("#10-24 UNC-2B").limits["minor_diameter"].basis
    assert basis.note == "other prints show max 0.156"
    allowance = of("5 3/4-14 UNS-2A").reference["allowance"]
    assert (allowance.max, allowance.basis.note) == (Decimal("0.0019"), "other prints show 0.0020")
    assert basis.checked == "conflict"
    assert of("#10-24 UNC-2B").limits["minor_diameter"].max == Decimal("0.155")
    assert "recalled" in (of("1-14 UNS-2A").limits["pitch_diameter"].basis.note or "")


def test_what_was_seen_in_print_says_how_well() -> None:
    assert of("1/2-13 UNC-2B").limits["pitch_diameter"].basis.checked == "two reproductions"
    assert of("1/2-13 UNC-3A").limits["pitch_diameter"].basis.checked == "formula"
    assert of("4 1/2-4 UN-2A").limits["pitch_diameter"].basis.checked == "memory"


def test_the_high_strength_area_of_the_worked_example() -> None:
    """1/2-13 2A: 0.13757 in2 (two reproductions of the formula)."""
    areas = of("1/2-13 UNC-2A").stress_areas
    assert areas["nominal"].min == Decimal("0.1419")
    assert areas["high_strength"].min == Decimal("0.1376")
    assert "180 ksi" in (areas["high_strength"].basis.note or "")


def test_an_area_that_was_not_printed_comes_from_the_formula() -> None:
    size = parse_thread("1-14 UNS").size
    area = nominal_stress_area(size)  # type: ignore[arg-type]
    assert area.basis.checked == "formula"
    assert area.min == Decimal("0.6799")


@given(st.integers(1, 200))
def test_cube_roots_of_cubes_are_exact(number: int) -> None:
    """0.015 P^2/3 ties at eight and at 64 threads per inch; a root that is off by 1E-28 would break the tie."""
    assert cube_root(Decimal(number) ** 3) == number
    assert cube_root(Decimal(1) / 8**3 * number**3) == Decimal(number) / 8


def test_ties_go_to_the_even_digit() -> None:
    assert four_places(Decimal("0.22235")) == Decimal("0.2224")
    assert four_places(Decimal("0.22225")) == Decimal("0.2222")
    assert six_places(Decimal("0.0009375")) == Decimal("0.000938")
