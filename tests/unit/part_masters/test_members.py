"""Members of a row as ERP systems hold them: placeholders, sizes with lengths, units of Europe (common practice)."""

from typing import Any

import pytest

from boltwright_server.part_masters.catalogue.validation import Result, Validator


def validated(**row: Any) -> Result:
    with Validator() as validator:
        return validator.validate(row)


def codes(**row: Any) -> set[str]:
    return {one.code for one in validated(**row).findings}


BOLT = {"standard": "ISO 4014", "thread": "M10", "length": 60, "property_class": "8.8"}


@pytest.mark.parametrize("nothing", ["-", "--", "N/A", "none", " ", "?", "ohne"])
@pytest.mark.parametrize(("member", "code"), [("coating", set()), ("length", {"requirement-missing"})])
def test_a_placeholder_says_nothing(nothing: str, member: str, code: set[str]) -> None:
    assert codes(**BOLT | {member: nothing}) == code


def test_a_length_in_the_thread_is_read_and_held_against_the_other() -> None:
    row = {"standard": "ISO 4014", "thread": "M10x60", "property_class": "8.8"}
    assert validated(**row).designation == "ISO 4014 - M10x60 - 8.8"
    assert codes(**row, length=70) == {"attribute-contradicts-description"}


@pytest.mark.parametrize("given", [200, "200", "200HV", "HV 200"])
def test_a_hardness_class_of_a_washer_may_be_a_bare_number(given: object) -> None:
    row = {"standard": "ISO 7089", "thread": "M10", "property_class": given}
    assert validated(**row).designation == "ISO 7089 - 10 - 200 HV"


def test_a_steel_without_its_strength_is_no_class() -> None:
    result = validated(**BOLT | {"property_class": "A2"})
    assert result.designation == "ISO 4014 - M10x60"
    assert result.left_over == ["A2"]
    assert {one.code for one in result.findings} == {"requirement-missing"}


@pytest.mark.parametrize("standard", ["SAE J429", "SAE J429 5", "ISO 898-1"])
def test_a_standard_of_properties_names_no_product_and_is_no_fault(standard: str) -> None:
    result = validated(description="HCS 1/2-13X2 GR5", standard=standard)
    assert result.designation == "ASME B18.2.1 hex cap screw - 1/2-13x2 - SAE J429 5"


def test_what_a_coating_says_beside_its_name_is_not_lost() -> None:
    assert validated(**BOLT, coating="Fe/Zn 5").designation == "ISO 4014 - M10x60 - 8.8 - Fe/Zn5"
    assert validated(**BOLT, coating="zinc plated 4711").left_over == ["4711"]


@pytest.mark.parametrize(("length", "code"), [("2.5", set()), ("20", set()), ("50.8", {"unit-mix-up"})])
def test_an_inch_length_of_many_diameters_was_typed_in_mm(length: str, code: set[str]) -> None:
    row = {"standard": "ASME B18.2.1 hex cap screw", "thread": "1/2-13", "property_class": "SAE J429 5"}
    assert codes(**row, length=length) == code


@pytest.mark.parametrize(
    ("member", "given", "code"),
    [
        ("tensile_strength", "800 N/mm2", set()),  # ISO 898-1:2013, Table 3: 800 MPa
        ("tensile_strength", "800 N/mm\u00b2", set()),
        ("tensile_strength", "830 N/mm2", {"mechanical-figure-wrong"}),
        ("hardness_core", "28 HRC", set()),  # 22 to 32 HRC
        ("hardness_core", "35 HRC", {"mechanical-figure-wrong"}),
        ("hardness_core", "250 HBW", set()),  # 238 to 304 HBW
        ("hardness_brinell", "310", {"mechanical-figure-wrong"}),
        ("elongation", "12", set()),  # 12 % at least
        ("elongation", "9", {"mechanical-figure-wrong"}),
        ("reduction_of_area", "40", {"mechanical-figure-wrong"}),  # 52 % at least
    ],
)
def test_figures_in_the_units_of_the_trade(member: str, given: str, code: set[str]) -> None:
    assert codes(**BOLT, **{member: given}) == code


@pytest.mark.parametrize(
    ("mates", "code"),
    [
        ("ISO 4032 M10 8; ISO 7089 10 200HV", set()),
        ("ISO 7089 10 200HV; ISO 4032 M10 6", {"pair-not-permitted"}),  # ISO 898-2:2012, Table 2
        ("ISO 4032 M10 8 LH", {"pair-not-permitted"}),
    ],
)
def test_each_of_several_mates_is_judged(mates: str, code: set[str]) -> None:
    assert codes(**BOLT, mates_with=mates) == code


def test_a_washer_of_stainless_steel_is_no_duplicate_of_one_of_carbon_steel() -> None:
    texts = ("ISO 7089 10 200HV", "ISO 7089 10 200HV A2", "WASHER ISO 7089 M10 200 HV A2")
    with Validator() as validator:
        rows = validator.validate_rows({"part_number": str(at), "description": text} for at, text in enumerate(texts))
    found = [[one.expected for one in row.findings if one.code == "duplicate-requirement"] for row in rows]
    assert found == [[], [], ["1"]]
