"""Rounding

Where the order asks for it (`rounded`, ASTM E29), a reading is rounded once, to the last digit in which the limit is
stated, and then compared; a tie goes to the even digit, or with `ties: greater` to the greater one (ISO 80000-1, rules
A and B). `absolute`, the other method of ASTM E29, rounds nothing.
"""

from typing import Any

import pytest
from flask.testing import FlaskClient
from lots import characteristic

FLATS = "width_across_flats"  # 15.73 to 16.00 mm
GREATER = {"rule": "rounded", "ties": "greater"}


def verdict(client: FlaskClient, reading: float, rule: Any, id: str = FLATS, **sides: Any) -> str:
    required = {"requirements": {id: sides}} if sides else {}
    found: str = characteristic(client, id, [reading], decision_rule=rule, **required)["verdict"]
    return found


def test_the_limit_says_to_which_digit(client: FlaskClient) -> None:
    """16.00 mm is stated to 0.01 mm, 320 HV to 1 HV: 16.004 mm and 320.4 HV conform, 16.006 mm and 320.6 HV do not."""
    assert verdict(client, 16.004, "rounded") == verdict(client, 320.4, "rounded", "hardness_core") == "conforming"
    assert verdict(client, 16.006, "rounded") == verdict(client, 320.6, "rounded", "hardness_core") == "nonconforming"


def test_a_load_is_stated_to_its_printed_digits(client: FlaskClient) -> None:
    """46 400 N to 100 N: a probe of 46 350 N, a tie, goes to the even 46 400 N; 46 349 N goes to 46 300 N."""
    limits = {"min": 46400, "unit": "N"}
    assert verdict(client, 46350, "rounded", "probe", **limits) == "conforming"
    assert verdict(client, 46349, "rounded", "probe", **limits) == "nonconforming"


def test_a_zero_at_the_end_is_a_digit(client: FlaskClient) -> None:
    """A drawing's 16.0 mm is stated to 0.1 mm and lets 16.04 mm pass; 16.00 mm does not."""
    for text, expected in (("16.0", "conforming"), ("16.00", "nonconforming")):
        body = (
            '{"designation": "ISO 4014 - M10x60 - 8.8", "decision_rule": "rounded", '
            f'"requirements": {{"probe": {{"max": {text}, "unit": "mm"}}}}, "readings": {{"probe": [16.04]}}}}'
        )
        answer = client.post("/v1/conformance", data=body, content_type="application/json").get_json()
        assert answer["characteristics"]["probe"]["verdict"] == expected


@pytest.mark.parametrize(
    ("reading", "limit", "even", "greater"),
    [
        (12.25, {"max": 12.2}, "conforming", "nonconforming"),
        (12.35, {"max": 12.4}, "conforming", "conforming"),
        (384.5, {"max": 384}, "conforming", "nonconforming"),
        (385.5, {"max": 385}, "nonconforming", "nonconforming"),
        (8.045, {"min": 8.05}, "nonconforming", "conforming"),
        (799.5, {"min": 800}, "conforming", "conforming"),
        (0.045, {"min": 0.05}, "nonconforming", "conforming"),
    ],
)
def test_a_tie_goes_to_the_even_or_to_the_greater_digit(
    reading: float, limit: dict[str, float], even: str, greater: str, client: FlaskClient
) -> None:
    """12.25 goes to 12.2 or 12.3, 12.35 to 12.4 by both; 384.5 to 384 or 385. No binary tie is missed: 8.045."""
    assert verdict(client, reading, "rounded", "probe", unit="mm", **limit) == even
    assert verdict(client, reading, GREATER, "probe", unit="mm", **limit) == greater


def test_rounding_happens_once(client: FlaskClient) -> None:
    """12.254 to 0.1 is 12.3; by way of 12.25 it would be 12.2."""
    assert verdict(client, 12.254, "rounded", "probe", unit="mm", max=12.2) == "nonconforming"


def test_the_reading_is_rounded_in_the_unit_of_the_limit(client: FlaskClient) -> None:
    """15 996.1 um is 15.9961 mm and goes to 16.00 mm; 0.630 in is 16.002 mm and does so too."""
    for value, unit in ((15996.1, "um"), (16004.9, "um"), (0.63, "in")):
        column = {"values": [value], "unit": unit}
        assert characteristic(client, FLATS, column, decision_rule="rounded")["verdict"] == "conforming"
    column = {"values": [16005.1], "unit": "um"}
    assert characteristic(client, FLATS, column, decision_rule="rounded")["verdict"] == "nonconforming"


def test_the_absolute_method_rounds_nothing(client: FlaskClient) -> None:
    """0.054 is over 0.05, and 799.6 under 800; rounded, both pass."""
    for reading, limit in ((0.054, {"max": 0.05}), (799.6, {"min": 800})):
        assert verdict(client, reading, "absolute", "probe", unit="mm", **limit) == "nonconforming"
        assert verdict(client, reading, "rounded", "probe", unit="mm", **limit) == "conforming"
