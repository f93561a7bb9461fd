"""Uncertainty and guard bands

Where the order asks for proof (`guarded`, ISO 14253-1), the uncertainty of the measurement counts against whoever has
to prove: inward for conformity, outward for nonconformity, and between the two nothing is proved. Example: width across
flats 15.73 mm to 16.00 mm, expanded uncertainty 0.01 mm, so u = 0.005 mm.
"""

from judging import GUARDED, GUARDED_2013, lot, only, verdict

FLATS = "width_across_flats"


def test_conformity_is_proved_inside_the_guard_band() -> None:
    """ISO 14253-1:2017: 95 %, 1.65 u; up to 15.99175 mm, that value included."""
    assert verdict(only(GUARDED, "0.01", width_across_flats=[15.99175]), FLATS) == "conforming"


def test_between_the_bands_nothing_is_proved() -> None:
    """15.995 mm lies inside the limit and is undecided; so is 16.005 mm, which lies outside."""
    for reading in (15.995, 16.005):
        assert verdict(only(GUARDED, "0.01", width_across_flats=[reading]), FLATS) == "undecided"


def test_nonconformity_is_proved_beyond_the_outer_band() -> None:
    """Above 16.00825 mm; exactly on it is not beyond it."""
    assert verdict(only(GUARDED, "0.01", width_across_flats=[16.00825]), FLATS) == "undecided"
    assert verdict(only(GUARDED, "0.01", width_across_flats=[16.00826]), FLATS) == "nonconforming"


def test_the_edition_of_2013_guards_with_two_u() -> None:
    """15.991 mm is conforming by 2017 and undecided by 2013: the edition belongs to the verdict."""
    assert verdict(only(GUARDED, "0.01", width_across_flats=[15.991]), FLATS) == "conforming"
    assert verdict(only(GUARDED_2013, "0.01", width_across_flats=[15.991]), FLATS) == "undecided"


def test_a_measurement_that_is_too_coarse_proves_nothing() -> None:
    """With u above T / 3.92 no reading can be proved conforming, not even in the middle."""
    assert verdict(only(GUARDED, "0.14", width_across_flats=[15.865]), FLATS) == "undecided"
    assert verdict(only(GUARDED, "0.12", width_across_flats=[15.865]), FLATS) == "conforming"


def test_two_limits_near_each_other_guard_wider() -> None:
    """Both sides together leave 95 %: T = 4 u guards with 1.796 u (computed), so only 0.204 u to either side of the
    middle is proved. u = 0.0675 mm: 15.875 mm conforms, 15.88 mm is undecided.
    """
    assert verdict(only(GUARDED, "0.135", width_across_flats=[15.875]), FLATS) == "conforming"
    assert verdict(only(GUARDED, "0.135", width_across_flats=[15.88]), FLATS) == "undecided"


def test_a_single_limit_guards_on_its_side_only() -> None:
    """Width across corners, 17.77 mm at least, u = 0.005 mm: proved from 17.77825 mm, disproved below 17.76175 mm."""
    id = "width_across_corners"
    for reading, expected in (
        (17.77825, "conforming"),
        (17.77824, "undecided"),
        (17.76175, "undecided"),
        (17.76174, "nonconforming"),
    ):
        assert verdict(only(GUARDED, "0.01", width_across_corners=[reading]), id) == expected


def test_an_uncertainty_of_nothing_guards_nothing() -> None:
    """Stated as 0, the limits themselves decide; not stated at all, the request is refused."""
    assert verdict(only(GUARDED, "0", width_across_flats=[16.00]), FLATS) == "conforming"
    assert verdict(only(GUARDED, "0", width_across_flats=[16.01]), FLATS) == "nonconforming"


def test_an_undecided_mandatory_reading_leaves_the_lot_incomplete() -> None:
    """Neither accepted nor rejected: measure better, or agree on the verdict."""
    found = lot(GUARDED, "0.01", width_across_flats=[15.9, 15.9, 15.9, 15.9, 15.995])
    assert found.verdict == "incomplete"


def test_gauges_need_no_guard_band() -> None:
    """The limits of ISO 1502 gauges hold their own allowance for manufacture and wear."""
    assert verdict(only(GUARDED, thread_go_gauge=[True]), "thread_go_gauge") == "conforming"
