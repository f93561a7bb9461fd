"""Dimensions that the text itself holds are held against the standard, like stored ones."""

import pytest

from boltwright_server.part_masters.catalogue.validation import Validator


def codes(description: str) -> set[str]:
    with Validator() as validator:
        return {one.code for one in validator.validate({"description": description}).findings}


@pytest.mark.parametrize(
    "description",
    [
        "ISO 4014 M10X60 8.8 SW17",  # DIN 931 M10 has 17 mm, ISO 4014:2011 Table 1 has 16.00
        "ISO 4014 M10X60 8.8 17 A/F",
        "ISO 4032 M10 8 SW 17",
        "ISO 7089 M10X30X2.5 200HV",  # ISO 7093-1:2000 Table 1
        "ISO 4762 M8X30 12.9 SW5",  # key 6, ISO 4762:2004 Table 1
    ],
)
def test_a_dimension_of_another_product_is_told(description: str) -> None:
    assert codes(description) == {"dimension-outside-limits"}


@pytest.mark.parametrize(
    "description",
    ["ISO 4014 M10X60 8.8 SW16", "ISO 4762 M8X30 12.9 SW 6", "ISO 7089 M10X20X2 200HV", "ISO 4032 M10 8 AF16"],
)
def test_the_dimensions_of_the_standard_raise_nothing(description: str) -> None:
    assert codes(description) == set()


@pytest.mark.parametrize(("key", "codes_"), [("8", set()), ("8.05", set()), ("8.2", {"dimension-outside-limits"})])
def test_a_socket_may_be_stored_by_its_key(key: str, codes_: set[str]) -> None:
    """ISO 4762:2004, Table 1: s of M10 is called 8 and is 8.025 to 8.115 mm."""
    row = {"description": "ISO 4762 M10x40 8.8", "socket_width_across_flats": key}
    with Validator() as validator:
        assert {one.code for one in validator.validate(row).findings} == codes_
