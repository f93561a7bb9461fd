"""What becomes of an answer: typed, exact, frozen; members of a newer service are ignored."""

from __future__ import annotations

import copy
import dataclasses
import math
import pickle
from decimal import Decimal
from typing import Any

import pytest
import responses
from hypothesis import given
from hypothesis import strategies as st

from boltwright import Basis, Bounds, Client, ThreadLimits
from boltwright.decoding import decode
from boltwright.errors import UnexpectedAnswer

URL = "http://bolts.test"
#: Figures of ISO 965-2:1998, Table 1 (M10, medium quality, coarse): d2 9.026, 8.994, 8.862.
PITCH_DIAMETER = b"""{"symbol": "d2", "min": 8.862, "max": 8.994, "nominal": 9.026, "unit": "mm", "shape": "new",
 "basis": {"standard": "ISO 965-1", "edition": "2013", "clause": "Tables 1 and 5", "method": "computed",
  "checked": "two reproductions", "page": 7}}"""
THREAD = (
    b'{"designation": "M10-6g", "system": "ISO metric", "member": "external", "nominal_diameter": 10, "pitch": 1.5,'
    b' "series": "coarse", "tolerance_class": "6g", "unit": "mm", "limits": {"pitch_diameter": '
    + PITCH_DIAMETER
    + b"},"
    b' "of_a_newer_service": {"a": [1.50]}, "fingerprint": "f1"}'
)


def test_members_of_a_newer_service_are_ignored_and_stay_in_raw() -> None:
    found = decode(ThreadLimits, THREAD)
    assert found.limits["pitch_diameter"].max == 8.994
    assert not hasattr(found, "of_a_newer_service")
    assert found.raw["of_a_newer_service"] == {"a": [1.5]}
    assert type(found.raw["limits"]["pitch_diameter"]["min"]) is float


def test_raw_is_a_fresh_copy() -> None:
    found = decode(ThreadLimits, THREAD)
    found.raw.clear()
    assert found.raw["designation"] == "M10-6g"


def test_results_are_frozen_equal_by_value_and_survive_copying() -> None:
    found = decode(ThreadLimits, THREAD)
    with pytest.raises(dataclasses.FrozenInstanceError):
        found.pitch = 2.0  # type: ignore[misc]
    assert found == decode(ThreadLimits, THREAD)
    assert pickle.loads(pickle.dumps(found)) == found == copy.deepcopy(found)
    assert not hasattr(found, "__dict__")


@pytest.mark.parametrize(
    ("given", "instead", "said"),
    [
        (b'"designation": "M10-6g", ', b"", "designation"),
        (b'"pitch": 1.5', b'"pitch": "1.5"', "answer/pitch"),
        (b'"pitch": 1.5', b'"pitch": true', "answer/pitch"),
        (b'"pitch": 1.5', b'"pitch": null', "answer/pitch"),
        (b'"min": 8.862, ', b"", "answer/limits/pitch_diameter lacks min"),
        (b'"min": 8.862', b'"min": "8.862"', "answer/limits/pitch_diameter/min"),
        (b'"unit": "mm", "shape"', b'"shape"', "answer/limits/pitch_diameter lacks unit"),
        (b'"checked": "two reproductions"', b'"checked": 2', "basis/checked"),
        (b'"series": "coarse"', b'"series": ["coarse"]', "answer/series"),
    ],
)
def test_a_member_that_is_missing_or_of_another_type_is_named(given: bytes, instead: bytes, said: str) -> None:
    """A limit that is missing must never pass for an open side."""
    assert given in THREAD
    with pytest.raises(UnexpectedAnswer, match=said):
        decode(ThreadLimits, THREAD.replace(given, instead))


BASIS = '{"standard": "ISO 1", "edition": "2016", "clause": "2", "method": "tabulated", "checked": "formula"}'


def bounds(low: str | None, high: str | None, unit: str | None = "mm") -> Bounds:
    ends = f'"min": {low or "null"}, "max": {high or "null"}, "unit": "{unit}"'
    return decode(Bounds, f'{{{ends}, "basis": {BASIS}}}'.encode())


def test_limits_keep_their_decimals() -> None:
    found = bounds("15.73", "16.00")
    assert (found.min, found.max) == (15.73, 16.0)
    assert (str(found.exact_min), str(found.exact_max), found.decimals) == ("15.73", "16.00", 2)
    assert str(found) == "15.73 to 16.00 mm"


@pytest.mark.parametrize(
    ("low", "high", "unit", "said"),
    [
        ("17.77", None, "mm", "at least 17.77 mm"),
        (None, "11.2", "mm", "at most 11.2 mm"),
        (None, None, "HV", "no limit"),
        ("10", "10", "deg", "10 deg"),
        ("-12.5", "12.5", "um", "-12.5 to 12.5 um"),
        ("46400", None, "N", "at least 46400 N"),
        ("1", None, "1", "at least 1"),
        ("1E+2", None, "N", "at least 100 N"),
    ],
)
def test_bounds_read_as_people_write_them(low: str | None, high: str | None, unit: str, said: str) -> None:
    assert str(bounds(low, high, unit)) == said


@given(st.decimals(min_value="-99999", max_value="99999", places=4, allow_nan=False), st.integers(1, 5000))
def test_a_reading_on_a_limit_lies_within_and_one_digit_beyond_does_not(low: Decimal, width: int) -> None:
    """The fault that binary floats would bring in: a part exactly on its limit, refused."""
    step = Decimal("0.0001")
    high = low + width * step
    found = bounds(f"{low:f}", f"{high:f}")
    for number in (float, Decimal):
        assert found.contains(number(low))
        assert found.contains(number(high))
        assert not found.contains(number(low - step))
        assert not found.contains(number(high + step))


def test_an_open_side_lets_everything_pass_and_nan_lies_nowhere() -> None:
    assert bounds("1", None).contains(1e300)
    assert bounds(None, "1").contains(-1e300)
    assert not bounds(None, None).contains(math.nan)
    assert not bounds("0", "1").contains(Decimal("NaN"))


@pytest.mark.parametrize("reading", [True, "8.9", None])
def test_what_is_no_number_is_no_reading(reading: Any) -> None:
    with pytest.raises(TypeError, match="number"):
        bounds("1", "2").contains(reading)


def test_bounds_made_by_hand_are_as_exact_as_their_floats() -> None:
    basis = bounds("1", "2").basis
    assert Bounds(min=0.1, max=None, unit="mm", basis=basis).exact_min == Decimal("0.1")


def test_a_number_cannot_exist_without_its_basis() -> None:
    with pytest.raises(UnexpectedAnswer, match="lacks basis"):
        decode(Bounds, b'{"min": 1, "max": 2, "unit": "mm"}')


@pytest.mark.parametrize(
    ("checked", "said"),
    [
        ("two reproductions", "ISO 1:2016, clause 2"),
        ("memory", "ISO 1:2016, clause 2 (from memory)"),
        ("conflict", "ISO 1:2016, clause 2 (sources disagree)"),
    ],
)
def test_a_basis_says_what_its_reader_must_know(checked: str, said: str) -> None:
    assert str(Basis(standard="ISO 1", edition="2016", clause="clause 2", method="tabulated", checked=checked)) == said


@pytest.mark.parametrize("reading", [math.nan, math.inf, Decimal("NaN"), Decimal("0.1234567890123456789")])
def test_readings_that_json_cannot_hold_never_leave(reading: Any) -> None:
    with Client(URL) as client, responses.RequestsMock(), pytest.raises(ValueError, match="length"):
        client.conformance("M10-6g", {"length": [1.0, reading]})


@pytest.mark.parametrize("readings", ["59.8", 59.8, None])
def test_readings_are_a_list(readings: Any) -> None:
    with Client(URL) as client, responses.RequestsMock(), pytest.raises(ValueError, match="list"):
        client.conformance("M10-6g", {"length": readings})
