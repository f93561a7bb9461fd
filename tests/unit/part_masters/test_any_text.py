"""Whatever stands in a row, it comes back: awkward descriptions, mutated at random, in any member."""

import csv
from pathlib import Path
from random import Random

from boltwright_server.part_masters.catalogue.validation import Validator
from boltwright_server.part_masters.text.lexicon import all_terms

AWKWARD = Path(__file__).parents[2] / "part_master_catalogue" / "awkward.csv"
SIGNS = "ABCMXHZNISO0123456789./-,#\"'*×x ()½:;_|ÉßØ\u2003\x00=+"
MEMBERS = ("description", "designation", "standard", "thread", "length", "property_class", "coating", "mates_with",
           "width_across_flats", "mass_per_1000", "tensile_load")  # fmt: skip


def mutated(text: str, chance: Random) -> str:
    for _ in range(chance.randint(0, 6)):
        at = chance.randrange(len(text) + 1)
        text = text[:at] + chance.choice(SIGNS) + text[at + chance.randint(0, 2) :]
    return text


def awkward_texts() -> list[str]:
    with AWKWARD.open(encoding="utf-8", newline="") as file:
        return [row["description"] for row in csv.DictReader(file)]


def test_no_order_of_known_words_stops_the_validation() -> None:
    """Words of the lexicon among the words of two descriptions, in any order: each may stand beside each."""
    chance, texts, terms = Random(10), awkward_texts(), [" ".join(term.words) for term in all_terms()]
    with Validator(repeats=False) as validator:
        for number in range(4000):
            words = [*chance.choice(texts).split(), *chance.choice(texts).split(), *chance.sample(terms, 2)]
            chance.shuffle(words)
            text = chance.choice((" ", " ", "-", ", ")).join(words[: chance.randint(2, 8)])
            assert validator.validate({"description": text}).row == number


def test_a_number_of_pieces_behind_the_size_is_no_length() -> None:
    with Validator(repeats=False) as validator:
        back = validator.validate({"description": "HEX BOLT ISO 4014 M10 60 PCS 8.8"})
    assert [(one.code, one.member) for one in back.findings] == [("requirement-missing", "length")]


def test_no_text_in_any_member_stops_the_validation() -> None:
    chance, texts = Random(9), awkward_texts()
    with Validator(repeats=False) as validator:
        for number in range(3000):
            members = chance.sample(MEMBERS, chance.randint(1, 4))
            back = validator.validate({member: mutated(chance.choice(texts), chance) for member in members})
            assert back.row == number


def test_an_inch_size_of_a_washer_that_is_named_by_its_hole_is_not_found() -> None:
    with Validator(repeats=False) as validator:
        back = validator.validate({"description": "DIN 125 1/2"})
    assert [one.code for one in back.findings if one.severity == "error"] == ["size-not-in-standard"]
