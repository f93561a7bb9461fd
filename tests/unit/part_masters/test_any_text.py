"""Whatever stands in a row, it comes back: awkward descriptions, mutated at random, in any member."""

import csv
from pathlib import Path
from random import Random

from boltwright_server.part_masters.validation import Validator

AWKWARD = Path(__file__).parents[2] / "part_master_catalogue" / "awkward.csv"
SIGNS = "ABCMXHZNISO0123456789./-,#\"'*×x ()½:;_|ÉßØ\u2003\x00=+"
MEMBERS = ("description", "designation", "standard", "thread", "length", "property_class", "coating", "mates_with",
           "width_across_flats", "mass_per_1000", "tensile_load")  # fmt: skip


def mutated(text: str, chance: Random) -> str:
    for _ in range(chance.randint(0, 6)):
        at = chance.randrange(len(text) + 1)
        text = text[:at] + chance.choice(SIGNS) + text[at + chance.randint(0, 2) :]
    return text


def test_no_text_in_any_member_stops_the_validation() -> None:
    chance = Random(9)
    with AWKWARD.open(encoding="utf-8", newline="") as file:
        texts = [row["description"] for row in csv.DictReader(file)]
    with Validator(repeats=False) as validator:
        for number in range(3000):
            members = chance.sample(MEMBERS, chance.randint(1, 4))
            back = validator.validate({member: mutated(chance.choice(texts), chance) for member in members})
            assert back.row == number


def test_an_inch_size_of_a_washer_that_is_named_by_its_hole_is_not_found() -> None:
    with Validator(repeats=False) as validator:
        back = validator.validate({"description": "DIN 125 1/2"})
    assert [one.code for one in back.findings if one.severity == "error"] == ["size-not-in-standard"]
