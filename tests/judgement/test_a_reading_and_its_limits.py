"""A reading and its limits

A limit belongs to the zone that it bounds: what equals it conforms. The reading is the decimal that was written, the
limit the decimal that is printed, and the comparison is exact in whatever unit the reading comes. Example: the width
across flats of an M10 head, 15.73 mm to 16.00 mm (ISO 4014:2011).
"""

from judging import only, verdict

FLATS = "width_across_flats"


def test_a_reading_equal_to_a_limit_conforms() -> None:
    """15.73 mm and 16.00 mm conform."""
    assert verdict(only(width_across_flats=[15.73, 16.00]), FLATS) == "conforming"


def test_any_excess_counts() -> None:
    """16.0001 mm does not conform, however finely the limit is printed; nothing is rounded first."""
    assert verdict(only(width_across_flats=[16.0001]), FLATS) == "nonconforming"


def test_an_open_side_has_no_limit() -> None:
    """The width across corners has a minimum of 17.77 mm only."""
    assert verdict(only(width_across_corners=[17.77, 99.0]), "width_across_corners") == "conforming"
    assert verdict(only(width_across_corners=[17.76]), "width_across_corners") == "nonconforming"


def test_one_nonconforming_piece_makes_the_characteristic_nonconforming() -> None:
    """One of five is enough; the pieces are named."""
    found = only(width_across_flats=[15.9, 15.9, 16.1, 15.9, 15.9])
    assert verdict(found, FLATS) == "nonconforming"
    assert found.characteristics[FLATS].nonconforming_pieces == (2,)


def test_a_piece_that_was_not_measured_is_neither() -> None:
    """An empty place counts for nothing, and nothing is inferred from it."""
    found = only(width_across_flats=[15.9, None])
    assert (verdict(found, FLATS), found.characteristics[FLATS].measured_count) == ("conforming", 1)


def test_a_characteristic_without_any_reading_is_undecided() -> None:
    """A column of empty places proves nothing."""
    assert verdict(only(width_across_flats=[None, None]), FLATS) == "undecided"
