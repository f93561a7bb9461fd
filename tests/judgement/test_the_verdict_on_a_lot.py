"""The verdict on a lot

A lot is rejected when a group of characteristics holds more nonconforming pieces than its plan allows, none where no
plan is named. Otherwise it is incomplete while anything mandatory is missing, short of its sample or undecided.
Otherwise it is accepted. What was not checked is never silently passed.
"""

import pytest
from judging import lot, only
from lots import bolts


def test_a_lot_is_accepted_when_everything_mandatory_conforms() -> None:
    """Dimensions, gauges, hardness, tensile test with its break, marking."""
    assert lot().verdict == "accept"


@pytest.mark.parametrize("id", bolts())
def test_a_lot_with_an_unchecked_mandatory_characteristic_is_incomplete(id: str) -> None:
    """Whichever one is left out, the lot is not accepted, and the characteristic is named."""
    found = lot(**{id: None})
    assert found.verdict == "incomplete"
    assert id in found.missing


def test_a_lot_of_which_nothing_was_measured_is_incomplete() -> None:
    """Every mandatory characteristic is listed as missing."""
    found = only(length=[None])
    assert (found.verdict, set(found.missing)) == ("incomplete", set(bolts()))


def test_a_nonconforming_piece_rejects_even_an_unfinished_lot() -> None:
    """More readings cannot mend it."""
    assert only(length=[70.0]).verdict == "reject"


def test_a_characteristic_that_is_not_mandatory_may_be_left_out_but_not_fail() -> None:
    """The washer face need not be measured; measured too small it rejects."""
    assert lot(washer_face_diameter=None).verdict == "accept"
    assert lot(washer_face_diameter=[14.0] * 5).verdict == "reject"


def test_a_piece_counts_once_in_its_group() -> None:
    """A bolt with a thick head and a thick shank is one nonconforming piece of the group dimension."""
    found = lot(head_height=[7.0, 6.4, 6.4, 6.4, 6.4], body_diameter=[11.0, 9.9, 9.9, 9.9, 9.9])
    assert found.groups["dimension"].pieces == 1


def test_gauging_and_measuring_are_two_results() -> None:
    """A thread may pass a permitted worn ring and measure above d2 max: both results stand, and the lot is rejected."""
    found = lot(thread_pitch_diameter=[9.0, 8.95, 8.95, 8.95, 8.95])
    assert found.characteristics["thread_go_gauge"].verdict == "conforming"
    assert found.characteristics["thread_pitch_diameter"].verdict == "nonconforming"
    assert found.verdict == "reject"


@pytest.mark.parametrize("designation", ["ISO 4017 - M20x40 - A2-70", "ISO 10642 - M8x30 - A2-70"])
def test_a_part_that_no_test_fits_is_not_accepted_on_its_dimensions(designation: str) -> None:
    """Stainless screws too short to be pulled have no mandatory test: how their strength is shown has to be agreed, and
    the result recorded; until then the lot is incomplete.
    """
    found = only(designation=designation, length=[None])
    assert "strength_as_agreed" in found.missing
    assert found.verdict == "incomplete"
