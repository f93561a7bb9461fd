"""Words that are not understood may be a requirement: rows that differ in them are not called the same."""

import pytest

from boltwright_server.part_masters.catalogue.validation import Validator

PART = "ISO 4032 M20 8"


def is_repeated(first: str, second: str) -> bool:
    with Validator() as validator:
        rows = validator.validate_rows(
            {"part_number": number, "description": text} for number, text in (("A", first), ("B", second))
        )
    return any(one.code == "duplicate-requirement" for one in rows[1].findings)


@pytest.mark.parametrize(
    "words",
    ["FINISH 14", "OBERFLÄCHE 7B", "GEOMET 500", "XYLAN", "WS 4711", "ЦИНК", "traitement Q4", "цинк 8", "acabado ZZ",
     "finitura K2",
     "RAL 9005", "OIL", "BRASS"],
)  # fmt: skip
def test_a_word_that_is_not_understood_makes_another_requirement(words: str) -> None:
    assert not is_repeated(PART, f"{PART} {words}")
    assert is_repeated(f"{PART} {words}", f"ISO 4032 - M20 - 8 {words}")


@pytest.mark.parametrize(
    "words",
    ["4711", "AB-12345", "100 STK", "PK 100", "EUR 0,35", "REF. 12-34", "BIN A12", "Lagerplatz R12", "Art.Nr. 4711",
     "codice 12", "código A7", "REV B", "SUPPLIER 4711"],
)  # fmt: skip
def test_numbers_of_parts_and_places_quantities_and_prices_ask_for_nothing(words: str) -> None:
    assert is_repeated(PART, f"{PART} {words}")


def test_what_is_asked_for_in_two_ways_differs() -> None:
    assert not is_repeated(f"{PART} WS 4711", f"{PART} WS 4712")
    assert is_repeated(f"{PART} XYLAN", f"XYLAN {PART}")
    assert is_repeated(f"10 {PART}", f"20 {PART}")
