"""Left-hand threads in the words of five languages, and sides that are places (common practice)."""

import pytest

from boltwright_server.part_masters.catalogue.validation import Validator


def read(text: str) -> tuple[str | None, set[str]]:
    with Validator(repeats=False) as validator:
        result = validator.validate({"description": text})
    return result.designation, {one.code for one in result.findings}


@pytest.mark.parametrize(
    "words",
    ["LH", "LEFT", "LEFT HAND THREAD", "REVERSE THREAD", "LI", "LINKS", "LINKSGÄNGIG", "LI-GEW.", "GEWINDE LINKS",
     "PAS A GAUCHE", "PAS INVERSE", "FILET A GAUCHE", "ROSCA IZQ.", "R. IZDA.", "ZURDA", "ROSCA INVERSA", "SX",
     "FILETTO SX", "FILETT. SIN.", "SINISTRORSA", "PASSO SINISTRO",
     "LINKES GEW.", "ROSCA IZQUIERDAS", "FILETAGE INVERSE", "FILET GAUCHE"],
)  # fmt: skip
def test_a_left_hand_thread_is_never_read_as_a_right_hand_one(words: str) -> None:
    assert read(f"ISO 4032 M16 8 {words}") == (None, {"left-hand-thread"})


@pytest.mark.parametrize(
    "words", ["LINKS VORNE", "REGAL LINKS OBEN", "FUER TUER LINKS", "PHARE GAUCHE", "PUERTA IZQUIERDA", "PORTA SX"]
)
def test_a_side_of_something_else_is_a_place(words: str) -> None:
    assert read(f"ISO 4032 M16 8 {words}") == ("ISO 4032 - M16 - 8", set())


def test_what_may_be_either_is_left_open() -> None:
    assert read("DADO ISO 4032 M16 8 SIN.") == (None, {"requirement-missing"})
