"""Editions: which are held, which are in force as far as known, and how a named one stands to them.

The years of ISO 2859-1:2026, ISO 7040:2025, ISO 8673:2023 and ISO 898-2:2022 stand in public catalogues.
"""

import pytest

from boltwright_server.standards import all_standards, current
from boltwright_server.standards.editions import InForce, in_force, later_editions, later_than_held, standing


@pytest.mark.parametrize(
    ("name", "edition", "checked"),
    [
        ("ISO 2859-1", "2026", "two reproductions"),
        ("ISO 7040", "2025", "two reproductions"),
        ("ISO 898-2", "2022", "two reproductions"),
        ("ISO 8673", "2023", "one reproduction"),
        ("ISO 4014", "2022", "memory"),
    ],
)
def test_a_later_edition_than_the_one_held_is_known(name: str, edition: str, checked: str) -> None:
    held = current(name)
    assert held is not None
    known = later_than_held(held)
    assert known is not None
    assert (known.edition, known.checked) == (edition, checked)


@pytest.mark.parametrize("name", ["ISO 898-1", "ISO 4762", "ISO 10684", "ISO 3269", "ISO 4759-1", "ISO 7089"])
def test_an_edition_that_is_in_force_has_no_later_one(name: str) -> None:
    held = current(name)
    assert held is not None
    assert later_than_held(held) is None


@pytest.mark.parametrize(
    ("name", "edition", "word"),
    [
        ("ISO 4014", "2011", "held"),
        ("ISO 4014", "2022", "later"),
        ("ISO 4014", "1999", "superseded"),
        ("ISO 3269", "2000", "held"),
        ("ISO 3269", "2010", "superseded"),
        ("ISO 2859-1", "2026", "later"),
        ("ASTM A563", "2021a", "not comparable"),
        ("EN 1090", "2018", "not held"),
    ],
)
def test_an_edition_that_is_named_stands_to_the_ones_held(name: str, edition: str, word: str) -> None:
    found = standing(name, edition)
    assert found.word == word
    assert edition in found.told


def test_what_is_said_of_a_later_edition_names_both_and_how_it_is_known() -> None:
    told = standing("ISO 7040", "2025").told
    assert "ISO 7040:2012" in told
    assert "no figure is one of ISO 7040:2025" in told
    assert "two public catalogues" in told
    assert "from memory" in standing("ISO 4014", "2022").told


def test_a_withdrawn_standard_has_no_edition_in_force() -> None:
    assert in_force("ASTM A325") == InForce(
        "ASTM A325", None, "memory", "withdrawn in 2016, as recalled; ASTM F3125 took its place"
    )
    assert "withdrawn" in standing("ASTM A325", "2014").told


def test_of_several_standards_those_are_named_once_that_have_a_later_edition() -> None:
    found = later_editions([("ISO 7040", "2012"), ("ISO 898-1", "2013"), ("ISO 898-2", "2012"), ("ISO 7040", "2012")])
    assert [(one.standard, one.used, one.in_force.edition) for one in found] == [
        ("ISO 7040", "2012", "2025"),
        ("ISO 898-2", "2012", "2022"),
    ]


def test_every_standard_held_that_a_body_publishes_has_its_line() -> None:
    """A new folder of facts needs a line too, were it only one from memory."""
    published = [
        one.id
        for one in all_standards()
        if one.family not in ("edition", "look_alike", "threaded_rod", "inch_threaded_rod")
    ]
    assert [name for name in published if in_force(name) is None] == []


def test_no_edition_held_is_later_than_the_one_said_to_be_in_force() -> None:
    for one in all_standards():
        known = in_force(one.id)
        if known is not None and known.edition is not None and one.edition.isdecimal():
            assert one.edition <= known.edition[:4], one.cited
