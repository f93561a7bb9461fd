"""A measured gauge is as new, used, worn or out of its limits; a size on a limit is within it.

ISO 1502:1996: GO ring M10-6g new 8.977 to 8.995, worn at 9.007; NOT GO plug M10-6H new 9.206 to 9.217, worn at 9.2005.
"""

from decimal import Decimal
from fractions import Fraction

import pytest

from boltwright_server.designations import parse_thread
from boltwright_server.gauges import Condition, condition, find_gauge, gauge_sizes
from boltwright_server.quantities import Contradiction, NotCovered, UnknownName


def judged(designation: str, gauge: str, value: str, unit: str = "mm", dimension: str = "pitch_diameter") -> Condition:
    thread = parse_thread(designation)
    sets = [gauge_sizes(thread.size, one) for one in thread.classes]
    return condition(find_gauge(sets, gauge), dimension, Decimal(value), unit)


@pytest.mark.parametrize(
    ("value", "status", "new", "remaining"),
    [
        ("8.9769", "out_of_new_limits", False, None),  # too small: a ring only wears larger
        ("8.977", "fit_for_use", True, "0.030"),
        ("8.995", "fit_for_use", True, "0.012"),
        ("8.9951", "fit_for_use", False, "0.0119"),
        ("9.007", "fit_for_use", False, "0"),
        ("9.0071", "worn", False, "-0.0001"),
    ],
)
def test_a_go_ring_wears_larger(value: str, status: str, new: bool, remaining: str | None) -> None:
    found = judged("M10-6g", "go_screw_ring", value)
    assert (found.status, found.within_new_limits) == (status, new)
    assert found.remaining_wear == (None if remaining is None else Fraction(remaining))


@pytest.mark.parametrize(
    ("value", "status"),
    [("9.0205", "fit_for_use"), ("9.0204", "worn"), ("9.0435", "fit_for_use"), ("9.0436", "out_of_new_limits")],
)
def test_a_go_plug_wears_smaller(value: str, status: str) -> None:
    assert judged("M10-6H", "go_screw_plug", value).status == status


def test_the_unit_of_the_measurement_is_converted_exactly() -> None:
    assert judged("1/2-13 UNC-2B", "go_screw_plug", "11.43").status == "fit_for_use"  # 0.4500 in exactly
    assert judged("1/2-13 UNC-2B", "go_screw_plug", "11429.9", "um").status == "worn"
    with pytest.raises(Contradiction):
        judged("M10-6g", "go_screw_ring", "9", "N")


def test_the_trap_is_said_aloud_where_a_permitted_gauge_lies_outside() -> None:
    found = judged("M10-6g", "go_screw_ring", "9.001")
    assert found.passes_outside == Fraction("0.007")
    assert "lies 0.007 mm outside d2 max = 8.994 mm" in found.reasons[1]
    assert "measure outside its limits" in found.reasons[1]
    inside = judged("M10-6g", "go_screw_ring", "8.98")
    assert inside.passes_outside == 0
    assert len(inside.reasons) == 1


def test_a_new_not_go_ring_of_iso_lies_outside_too() -> None:
    assert judged("M10-6g", "not_go_screw_ring", "8.844").passes_outside == Fraction("0.018")


def test_a_gage_without_a_wear_limit_is_out_of_its_new_limits() -> None:
    found = judged("1/2-13 UNC-2B", "not_go_screw_plug", "0.4561", "in")
    assert (found.status, found.remaining_wear) == ("out_of_new_limits", None)


def test_a_check_plug_passes_no_part() -> None:
    assert judged("M10-6g", "wear_check_plug_for_go_screw_ring", "9.007").passes_outside is None


def test_names_that_are_not_there() -> None:
    with pytest.raises(UnknownName) as caught:
        judged("M10-6g", "go_screw_plug", "9")
    assert "go_screw_ring" in caught.value.nearest
    with pytest.raises(UnknownName):
        judged("M10-6g", "go_screw_ring", "9", dimension="length")
    with pytest.raises(NotCovered, match="H1, H2"):
        judged("M10-6g", "go_plain_ring", "9")


def test_a_fit_has_rings_and_plugs() -> None:
    assert judged("M10-6H/6g", "go_screw_plug", "9.03").status == judged("M10-6H/6g", "go_screw_ring", "8.98").status
