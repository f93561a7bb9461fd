"""Rows that ask for the same: another coating is another requirement, an unknown one is compared with nothing."""

import pytest

from boltwright_server.part_masters.catalogue.validation import Validator


def repeats(*rows: dict[str, object]) -> list[bool]:
    with Validator() as validator:
        found = [{one.code for one in validator.validate(row).findings} for row in rows]
    return ["duplicate-requirement" in codes for codes in found]


@pytest.mark.parametrize("product", ["ISO 4032 M20 8", "DIN 934 M20 8", "ASME B18.2.2 hex nut 1/2-13 SAE J995 5"])
@pytest.mark.parametrize("coating", ["FINISH 12", "BESCHICHTUNG 4711", "revetement X", "galv"])
def test_a_coating_that_is_not_understood_is_compared_with_nothing(product: str, coating: str) -> None:
    rows = (
        {"description": product},
        {"description": product, "coating": coating},
        {"description": product, "coating": "C 9"},
    )
    assert repeats(*rows, rows[1]) == [False] * 4
    assert repeats(rows[0], rows[0]) == [False, True]


@pytest.mark.parametrize("plain", ["zinc plated", "galv. verzinkt", "Fe/Zn8", "tZn"])
@pytest.mark.parametrize("more", ["sealed per WS 4711", "QX-7", "nach Muster 12"])
def test_words_beside_a_coating_make_it_another_one(plain: str, more: str) -> None:
    rows = [{"description": "ISO 4014 M20x80 8.8", "coating": one} for one in (plain, f"{plain}, {more}")]
    assert repeats(*rows, *rows) == [False, False, True, True]


def test_another_thickness_is_another_requirement() -> None:
    rows = [{"description": "ISO 4014 M20x80 8.8 zinc plated", "coating_thickness": one} for one in ("5", "8", "5")]
    assert repeats(*rows) == [False, False, True]


@pytest.mark.parametrize(("length", "mixed_up"), [("3.15", True), ("3.54", True), ("80", False), ("3", False)])
def test_a_metric_length_stored_in_inches_is_a_mix_up(length: str, mixed_up: bool) -> None:
    """ISO 888:2012: 80 mm and 90 mm are nominal lengths, 3 in (76.2 mm) is none."""
    with Validator() as validator:
        codes = {one.code for one in validator.validate({"description": "ISO 4014 M12 8.8", "length": length}).findings}
    assert ("unit-mix-up" in codes) is mixed_up
