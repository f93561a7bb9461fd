"""Threads that hot dip galvanizing leaves out. ISO 10684:2004, clause 1: coarse threads M8 to M64."""

import pytest

from boltwright_server.part_masters.catalogue.validation import Validator


def told(description: str) -> list[str]:
    with Validator() as validator:
        found = validator.validate({"description": description}).findings
    return [one.detail for one in found if one.code == "coating-not-in-standard"]


@pytest.mark.parametrize("description", ["ISO 4032 M6 8 HDG", "ISO 4017 M6X20 8.8 TZN", "ISO 8673 M16X1.5 8 HDG"])
def test_a_thread_outside_the_scope_is_told(description: str) -> None:
    assert [one for one in told(description) if "M8 to M64" in one]


@pytest.mark.parametrize("description", ["ISO 4032 M8 8 HDG", "ISO 4017 M64X200 8.8 TZN", "ISO 7089 6 200 HV TZN"])
def test_a_thread_in_the_scope_and_a_washer_are_not(description: str) -> None:
    assert told(description) == []


@pytest.mark.parametrize(("description", "near"), [("ISO 4032 M9 8", "M8, M10"), ("ISO 4014 M80x300 8.8", "M64")])
def test_the_sizes_of_the_product_next_to_one_that_it_does_not_list(description: str, near: str) -> None:
    """ISO 4032:2012 and ISO 4014:2011, Tables 1 and 2."""
    with Validator() as validator:
        (found,) = validator.validate({"description": description}).findings
    assert (found.code, found.expected) == ("size-not-in-standard", near)
