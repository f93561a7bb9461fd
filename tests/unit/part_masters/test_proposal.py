"""The corrected row: only what cannot mean anything else is proposed.

Figures: ISO 898-1:2013, Table 4 (tensile load of M10, 8.8: 46 400 N, 10 431 lbf); ISO 4014:2011, Table 1 (s of M16:
23.67 to 24.00 mm, 0.94 in); mass of nuts M10 common practice.
"""

from typing import Any

import pytest

from boltwright_server.part_masters.catalogue.validation import Result, Validator


def validated(**row: Any) -> Result:
    with Validator(repeats=False) as validator:
        return validator.validate(row)


@pytest.mark.parametrize(
    ("row", "proposed"),
    [
        ({"description": "ISO 4014 M10x60 8.8", "tensile_load": "46400"}, {}),
        ({"description": "ISO 4014 M10x60 8.8", "tensile_load": "46.4 kN"}, {}),
        ({"description": "ISO 4014 M10x60 8.8", "tensile_load": "44000"}, {"tensile_load": "46400 N"}),
        ({"description": "ISO 4014 M10x60 8.8", "tensile_load": "10431"}, {"tensile_load": "46400 N"}),
        ({"description": "ISO 4014 M16x90 8.8", "width_across_flats": "0,94"}, {"width_across_flats": "23.88 mm"}),
        ({"description": "ISO 4014 M16x90 8.8", "width_across_flats": "22"}, {}),
        ({"description": "ISO 4032 M10 8", "mass_per_1000": "1.1"}, {"mass_per_1000": "11 kg"}),
        ({"designation": "iso4014 m10×60 8,8"}, {"designation": "ISO 4014 - M10x60 - 8.8"}),
        ({"designation": "ISO 4014 - M10x60 - 8.8"}, {}),
        ({"designation": "ISO 4014 M10X60 8.7"}, {}),
        ({"designation": "ISO 4014 M10X60 8.8", "thread": "M12"}, {}),
        ({"designation": "HEX BOLT M10X60 8.8"}, {}),
    ],
)
def test_what_is_proposed(row: dict[str, Any], proposed: dict[str, str]) -> None:
    assert validated(**row).proposed == proposed


def test_a_proposed_row_has_nothing_left_to_propose() -> None:
    row = {"designation": "iso4014 m10x60 8.8", "tensile_load": "10431", "width_across_flats": "0.625"}
    corrected = row | validated(**row).proposed
    assert corrected["designation"] == "ISO 4014 - M10x60 - 8.8"
    again = validated(**corrected)
    assert (again.proposed, again.status) == ({}, "valid")


def test_words_are_used_or_left_over_and_none_is_lost() -> None:
    read = validated(description="HEX BOLT M10X60 8.8 QZY ISO4014")
    assert read.used == ["HEX", "BOLT", "M10", "X", "60", "8.8", "ISO4014"]
    assert read.left_over == ["QZY"]
    assert read.confidence < 1
