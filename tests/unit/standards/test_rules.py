"""Which edition answers when an engine asks for a standard by its number."""

from __future__ import annotations

import pytest

from boltwright_server.standards import other_source, rules


def test_the_last_line_of_a_standard_is_its_current_edition() -> None:
    assert rules("ISO 10683").edition == "2014"
    assert rules("ISO 3269").edition == "2019"


def test_an_edition_that_is_named_answers() -> None:
    assert rules("ISO 10683", "2000").edition == "2000"
    assert rules("ISO 3269", "2000").edition == "2000"


def test_what_the_current_edition_does_not_hold_is_that_of_the_latest_that_does() -> None:
    # ISO 4042:2018 is held without its thicknesses, ISO 3506-1:2020 with its additions only.
    assert rules("ISO 4042", holding="table_1").edition == "1999"
    assert rules("ISO 4042", holding="clause_4_4").edition == "2018"
    assert rules("ISO 3506-1", holding="table_2").edition == "2009"
    assert rules("ISO 3506-1", holding="additions").edition == "2020"


@pytest.mark.parametrize(
    ("number", "edition", "table"),
    [("ISO 1", None, None), ("ISO 898-1", "1999", None), ("ISO 898-1", None, "table_99")],
)
def test_what_is_not_held_is_a_fault_of_the_caller(number: str, edition: str | None, table: str | None) -> None:
    with pytest.raises(KeyError):
        rules(number, edition, holding=table)


def test_a_clause_is_checked_as_the_facts_say() -> None:
    found = rules("ISO 898-1").clause("clause 9.1.6.1")
    assert (found.cited, found.clause, found.checked) == ("ISO 898-1:2013", "clause 9.1.6.1", "formula")
    with pytest.raises(KeyError, match=r"iso_898_1_2013/standard\.toml"):
        rules("ISO 898-1").clause("clause 99")


def test_a_decision_rule_has_the_mark_of_its_edition() -> None:
    assert other_source("ISO 14253-1", "default decision rule").edition == "2017"
    assert other_source("ISO 14253-1", "default decision rule", "1998").checked == "memory"
