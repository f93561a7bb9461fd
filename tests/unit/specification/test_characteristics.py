"""The book of characteristics: one row says all that is known of a characteristic; a new one is a row."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterator
from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest

from boltwright_server.conformance import Column, Request, Requirement, judge
from boltwright_server.conformance.rules import SIMPLE
from boltwright_server.documents.names import name_of
from boltwright_server.quantities import NotUnderstood
from boltwright_server.quantities.keeper import KEEPER
from boltwright_server.specification import characteristic, specification
from boltwright_server.specification.characteristic import ROLES, traits, with_role

BOLT = "ISO 4014 - M10x60 - 8.8"
ROW = {
    "id": "head_runout",
    "kind": "measured",
    "group": "dimension",
    "instrument": "dial gauge",
    "destructive": "no",
    "mandatory": "no",
    "per": "piece",
    "state": "before_coating",
    "level": "forming_batch",
    "words_en": "runout of the head",
    "more_en": "larger",
    "less_en": "smaller",
}
Change = Callable[[list[dict[str, str]]], list[dict[str, str]]]
TABLE = Path(characteristic.__file__).with_name("characteristics.csv")


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[Change], None]]:
    """Return what puts another book in the place of the service's own."""

    def replaced(change: Change) -> None:
        with TABLE.open(encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        other = tmp_path / "characteristics.csv"
        with other.open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, list(rows[0]), restval="")
            writer.writeheader()
            writer.writerows(change(rows))
        monkeypatch.setattr(characteristic, "_TABLE", other)
        KEEPER.forget()

    yield replaced
    monkeypatch.undo()
    KEEPER.forget()


def lot(readings: list[float]) -> Request:
    asked = Requirement("head_runout", {"max": Decimal("0.3"), "unit": "mm"})
    return Request(BOLT, (Column("head_runout", np.array(readings)),), SIMPLE, requirements=(asked,))


def test_a_new_characteristic_is_a_row(book: Callable[[Change], None]) -> None:
    """Its words stand in reasons and on pages, its instrument and state in what is judged."""
    book(lambda rows: [*rows, ROW])
    found = judge(lot([0.1, 0.4])).characteristics["head_runout"]
    assert (found.verdict, found.characteristic.instrument, found.characteristic.destructive) == (
        "nonconforming",
        "dial gauge",
        False,
    )
    told = [one.detail for one in judge(lot([0.1, 0.4])).reasons if one.characteristic == "head_runout"]
    assert told[0].startswith("Runout of the head: 1 of 2 pieces does not conform (piece 2). Required: at most 0.3 mm")
    assert name_of("head_runout") == "Runout of the head"


def test_a_role_is_a_word_in_the_row(book: Callable[[Change], None]) -> None:
    """Readings below zero are a fault of the data, unless the book says that they mean something."""
    book(lambda rows: [*rows, ROW])
    with pytest.raises(NotUnderstood, match="below zero"):
        judge(lot([-0.1]))
    book(lambda rows: [*rows, {**ROW, "roles": "signed"}])
    assert judge(lot([-0.1])).characteristics["head_runout"].verdict == "conforming"


def test_what_a_product_standard_limits_is_judged_once_it_has_a_row(book: Callable[[Change], None]) -> None:
    """ISO 4014:2011, Table 1 limits the washer face: without its row it is a figure, with it a characteristic."""
    assert specification(BOLT).characteristics["washer_face_thickness"].bounds is not None
    book(lambda rows: [row for row in rows if row["id"] != "washer_face_thickness"])
    found = specification(BOLT)
    assert "washer_face_thickness" not in found.characteristics
    assert found.dimensions is not None
    assert "washer_face_thickness" in found.dimensions.dimensions


@pytest.mark.parametrize(
    ("member", "given"),
    [("roles", "unheard_of"), ("level", "shift"), ("state", ""), ("kind", "guess"), ("words_en", ""), ("group", "x")],
)
def test_a_wrong_row_is_named(member: str, given: str, book: Callable[[Change], None]) -> None:
    book(lambda rows: [*rows, {**ROW, member: given}])
    with pytest.raises(ValueError, match="head_runout"):
        traits()


def test_words_are_those_of_one_characteristic() -> None:
    words = [trait.words for trait in traits().values()]
    assert len(set(words)) == len(words)


@pytest.mark.parametrize("id", traits())
def test_each_row_says_what_its_kind_needs(id: str) -> None:
    trait = traits()[id]
    assert bool(trait.met_words) is (trait.kind == "attribute")
    assert trait.kind != "measured" or (trait.more_words and trait.less_words)
    assert trait.state == "as_delivered" or trait.level == "forming_batch", (
        "what holds before coating is settled before"
    )
    assert trait.per == "piece" or trait.level == "coating_batch"


@pytest.mark.parametrize("role", ROLES)
def test_each_role_has_a_characteristic(role: str) -> None:
    assert with_role(role)
