"""Cautions of coatings: what ISO 10684:2004 leaves out of hot dip galvanizing."""

import pytest

from boltwright_server.part_masters.validation import Validator


def codes(description: str) -> set[str]:
    with Validator() as validator:
        return {finding.code for finding in validator.validate({"description": description}).findings}


@pytest.mark.parametrize(
    ("description", "left_out"),
    [
        ("ISO 4014 M12x60 8.8U tZn", False),
        ("ISO 4014 M12x60 10.9U tZn", False),
        ("ISO 4762 M12x60 12.9U tZn", True),
        ("ISO 4014 M12x60 A2-70 tZn", True),
        ("ISO 7089 12 200 HV tZn", False),
    ],
)
def test_bolts_up_to_10_9_are_galvanized(description: str, left_out: bool) -> None:
    """ISO 10684:2004, scope: fasteners of steel, bolts up to 10.9; washers have no property class."""
    assert ("coating-not-in-standard" in codes(description)) is left_out
