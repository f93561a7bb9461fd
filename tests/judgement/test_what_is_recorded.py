"""What is recorded and never dropped

A reading that was sent is judged. One far from the rest is flagged and counts like the others; several readings of one
piece count as one piece; instrument and time are kept with the verdict and change nothing in it.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import bolts, characteristic, judged, post, request
from problem_documents import pointers, problem

FLATS = "width_across_flats"  # 15.73 to 16.00 mm


def test_a_reading_far_from_the_rest_is_flagged_and_judged(client: FlaskClient) -> None:
    """15.75 mm among readings near 15.90 mm is an outlier (modified z-score over 3.5, common practice) and conforms."""
    values = [15.90, 15.91, 15.89, 15.90, 15.75, 15.91]
    found = judged(client, {FLATS: values})
    one = found["characteristics"][FLATS]
    assert (one["outlying_pieces"], one["count"], one["verdict"]) == ([4], 6, "conforming")
    assert one["statistics"]["min"] == 15.75
    assert any("piece 5 lies far from the rest" in notice for notice in found["notices"])


def test_a_reading_far_from_equal_ones_is_flagged_too(client: FlaskClient) -> None:
    """Coarse readings, most of them the same: 15.9 mm five times and 15.8 mm."""
    assert characteristic(client, FLATS, [15.9] * 5 + [15.8])["outlying_pieces"] == [5]
    assert characteristic(client, FLATS, [15.9] * 6)["outlying_pieces"] == []


def test_four_readings_are_too_few_to_speak_of_outliers(client: FlaskClient) -> None:
    """15.90, 15.91, 15.89 and 15.75 mm: nothing is flagged."""
    assert characteristic(client, FLATS, [15.90, 15.91, 15.89, 15.75])["outlying_pieces"] == []


def test_several_readings_of_a_piece_need_a_word_on_how_they_count(client: FlaskClient) -> None:
    """Across three pairs of flats: say whether each has to conform, or their mean."""
    body = request({FLATS: {"values": [15.9, 15.9], "pieces": [0, 0]}})
    assert pointers(problem(post(client, body), 422, "not_understood")) == [f"/readings/{FLATS}/pieces"]


def test_each_reading_of_a_piece_has_to_conform(client: FlaskClient) -> None:
    """`repeated: each`: 15.90, 15.95 and 16.02 mm on one piece make it one nonconforming piece of two."""
    column = {"values": [15.90, 15.95, 16.02, 15.9], "pieces": [0, 0, 0, 1], "repeated": "each"}
    found = characteristic(client, FLATS, column)
    assert (found["count"], found["nonconforming_count"], found["nonconforming_pieces"]) == (2, 1, [0])


def test_the_mean_of_a_piece_is_exact(client: FlaskClient) -> None:
    """`repeated: mean`: 15.99, 16.00 and 16.01 mm have the mean 16.00 mm and conform; 16.011 in its place fails."""
    for last, verdict in ((16.01, "conforming"), (16.011, "nonconforming")):
        column = {"values": [15.99, 16.00, last], "pieces": [0, 0, 0], "repeated": "mean"}
        assert characteristic(client, FLATS, column)["verdict"] == verdict


def test_what_was_not_measured_again_does_not_enter_the_mean(client: FlaskClient) -> None:
    """15.99 mm and an empty place: the mean is 15.99 mm."""
    column = {"values": [15.99, None], "pieces": [0, 0], "repeated": "mean"}
    assert characteristic(client, FLATS, column)["statistics"]["mean"] == 15.99


@pytest.mark.parametrize("repeated", ["each", "mean"])
def test_repeated_readings_do_not_fill_a_sample(repeated: str, client: FlaskClient) -> None:
    """A plan of five pieces: five readings of one piece are one piece."""
    column = {"values": [15.9] * 5, "pieces": [0] * 5, "repeated": repeated}
    found = judged(client, bolts(width_across_flats=column), lot_size=60, sampling={"scheme": "ISO 3269"})
    assert (found["verdict"], found["missing"]) == ("incomplete", [FLATS])


def test_instrument_and_time_stay_with_the_verdict(client: FlaskClient) -> None:
    """Of a column, or one for each reading; the answer names the instruments and the first and the last time."""
    readings: dict[str, Any] = {
        FLATS: {
            "values": [15.9, 15.9, 15.9],
            "instrument": ["MIC-07", None, "MIC-02"],
            "measured_at": ["2026-11-25T08:00:00+01:00", "2026-11-25T06:30:00Z", None],
        },
        "length": {"values": [60, 60, 60], "instrument": "CAL-1"},
        "head_height": [6.4, 6.4, 6.4],
    }
    found = judged(client, readings)["characteristics"]
    assert found[FLATS]["record"] == {
        "instruments": ["MIC-02", "MIC-07"],
        "measured_from": "2026-11-25T06:30:00+00:00",
        "measured_until": "2026-11-25T08:00:00+01:00",
    }
    assert found["length"]["record"] == {"instruments": ["CAL-1"], "measured_from": None, "measured_until": None}
    assert found["head_height"]["record"] is None


@pytest.mark.parametrize(
    ("beside", "code", "pointer"),
    [
        ({"instrument": ["MIC-07"]}, "unequal_columns", "/instrument"),
        ({"measured_at": ["2026-11-25T08:00:00Z"] * 3}, "unequal_columns", "/measured_at"),
        ({"measured_at": "2026-11-25T08:00:00"}, "invalid", "/measured_at"),
        ({"measured_at": ["2026-11-25T08:00:00Z", "yesterday"]}, "invalid", "/measured_at/1"),
        ({"instrument": [7, "MIC-07"]}, "wrong_type", "/instrument/0"),
    ],
)
def test_a_record_that_fits_no_reading_is_refused(
    beside: dict[str, Any], code: str, pointer: str, client: FlaskClient
) -> None:
    """One for the column or one for each reading; a time carries its zone."""
    found = problem(post(client, request({FLATS: {"values": [15.9, 15.9], **beside}})), 422, code)
    assert pointers(found) == [f"/readings/{FLATS}{pointer}"]
