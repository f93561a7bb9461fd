"""A measurable requirement of a designation, and the book of what is known of each characteristic.

`characteristics.csv` is the book: kind, group, instrument, whether a piece survives, where it is settled (common
practice, ISO 3269 as a guide), its roles and its words. A new characteristic is a row.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from pathlib import Path
from typing import Literal, TypeVar

from ..quantities import Basis, Bounds
from ..quantities.keeper import remembered

Word = TypeVar("Word")
Kind = Literal["measured", "attribute", "category"]
State = Literal["before_coating", "as_delivered"]
Level = Literal["forming_batch", "furnace_charge", "coating_batch"]
GROUPS = ("dimension", "thread", "mechanical", "surface", "marking")
#: What a characteristic is to the rules that name none: role -> what it says.
ROLES = {
    "signed": "a reading below zero means something",
    "located": "a reading counts only with the place of the break",
    "location": "the place of the break",
    "never_retested": "no second sample makes up for a failure",
    "core": "hardness of the core",
    "over_core": "may exceed the core of the same piece by a permitted rise at most",
    "local": "local thickness of the coating",
    "mean": "batch average of the local thickness",
    "gauged": "measured beside the gauges, which decide",
    "by_maker": "asked of the class, left to the maker's own inspection unless the order says otherwise",
}
_KINDS: tuple[Kind, ...] = ("measured", "attribute", "category")
_PER: tuple[Literal["piece", "lot"], ...] = ("piece", "lot")
_STATES: tuple[State, ...] = ("before_coating", "as_delivered")
_LEVELS: tuple[Level, ...] = ("forming_batch", "furnace_charge", "coating_batch")
_TABLE = Path(__file__).with_name("characteristics.csv")


@dataclass(frozen=True, slots=True)
class Trait:
    """What is known of a characteristic whatever the part: one row of the book."""

    kind: Kind
    group: str
    instrument: str
    destructive: bool
    mandatory: bool
    #: Whether each piece has a reading of its own, or the lot as a whole has one.
    per: Literal["piece", "lot"] = "piece"
    #: In words, as inside a sentence.
    words: str = ""
    #: What `true` stands for in a column of yes-or-no results; `{load}` is the least load.
    met_words: str = ""
    roles: frozenset[str] = frozenset()
    #: Hardness only: scale -> id of the property of the class that limits it, the usual scale first.
    scales: Mapping[str, str] = field(default_factory=dict)
    #: What a part with more, or with less of it is, in a comparison.
    more_words: str = "higher"
    less_words: str = "lower"
    #: Of a coated product: whether it holds before coating or as delivered.
    state: State = "as_delivered"
    #: Where in the making of a lot it is settled.
    level: Level = "forming_batch"


@dataclass(frozen=True, slots=True)
class Guidance:
    """A minimum that only guides while the test that decides holds; `test` is the id of its characteristic."""

    test: str
    basis: Basis


@dataclass(frozen=True, slots=True)
class Characteristic:
    """One requirement: `bounds` where it is measured, `allowed` where it is a category or an attribute."""

    id: str
    kind: Kind
    group: str
    instrument: str
    destructive: bool
    mandatory: bool
    basis: Basis
    bounds: Bounds | None = None
    allowed: tuple[bool | str, ...] = ()
    #: Hardness only: limits by scale, each judged on its own and never converted.
    scales: dict[str, Bounds] = field(default_factory=dict)
    #: Scale -> edition -> limits, where sources disagree.
    disputed: dict[str, dict[str, Bounds]] = field(default_factory=dict)
    #: Surface hardness only: permitted rise over the core of the same piece.
    over_core: Bounds | None = None
    #: Unit of a reading that names none, where a purchaser stated the limits in another unit than the standard.
    reading_unit: str | None = None
    #: Last stated digit of each limit, in their unit, where one was converted and its decimals do not tell it any more.
    stated: tuple[Fraction | None, ...] = ()
    #: Hardness only: its minimum is guidance while this test holds.
    guidance: Guidance | None = None
    #: Coated products: whether it holds before coating or as delivered; None for a plain product.
    state: State | None = None
    #: One reading for the lot, not one for each piece.
    of_lot: bool = False

    @property
    def met(self) -> str:
        """What a result that conforms says, in words."""
        trait = traits().get(self.id)
        load = "" if self.bounds is None else f"{self.bounds.min} {self.bounds.unit}"
        return ("" if trait is None else trait.met_words.format(load=load)) or "the requirement is met"


@remembered()
def traits() -> dict[str, Trait]:
    """Return the book of characteristics: every one that the service knows, by id.

    Raises:
        ValueError: a row has no words, or a role, level or state that is not known; it is named.
    """
    with _TABLE.open(encoding="utf-8", newline="") as file:
        return {row["id"]: _trait(row) for row in csv.DictReader(file)}


def _trait(row: Mapping[str, str]) -> Trait:
    roles = frozenset(row["roles"].split())
    unknown = [*sorted(roles - set(ROLES)), *(name for name in ("words_en", "group") if not row[name])]
    if unknown or row["group"] not in GROUPS:
        raise ValueError(
            f"characteristics.csv, {row['id']}: {', '.join(unknown) or row['group']} is not known or empty"
        )
    return Trait(
        _one_of(row, "kind", _KINDS),
        row["group"],
        row["instrument"],
        row["destructive"] == "yes",
        row["mandatory"] == "yes",
        _one_of(row, "per", _PER),
        row["words_en"],
        row["met_words_en"],
        roles,
        dict(pair.split("=") for pair in row["scales"].split()),
        row["more_en"],
        row["less_en"],
        _one_of(row, "state", _STATES),
        _one_of(row, "level", _LEVELS),
    )


def _one_of(row: Mapping[str, str], name: str, words: tuple[Word, ...]) -> Word:
    for word in words:
        if word == row[name]:
            return word
    raise ValueError(f"characteristics.csv, {row['id']}: {name} {row[name]!r} is none of {words}")


@remembered()
def with_role(role: str) -> tuple[str, ...]:
    """Return the ids of the characteristics with a role, in the order of the book.

    Raises:
        KeyError: there is no such role.
    """
    if role not in ROLES:
        raise KeyError(role)
    return tuple(id for id, trait in traits().items() if role in trait.roles)


def the_one(role: str) -> str:
    """Return the only characteristic with a role, as `core` is that of the core hardness."""
    (id,) = with_role(role)
    return id


def has_role(id: str, role: str) -> bool:
    """Say whether a characteristic has a role; what only a drawing has, has none."""
    return id in with_role(role)


def in_words(id: str) -> str:
    """Return a characteristic as inside a sentence; an id that is not in the book is read aloud."""
    trait = traits().get(id)
    return id.replace("_", " ") if trait is None else trait.words


@remembered()
def by_property() -> dict[str, str]:
    """Return the hardness that a property of a class limits on one of its scales, by the property's id."""
    return {name: id for id, trait in traits().items() for name in trait.scales.values()}


@remembered()
def property_of_scale() -> dict[str, str]:
    """Return the property of a class that limits the core on a scale, by the scale."""
    return dict(traits()[the_one("core")].scales)


def measured(id: str, bounds: Bounds, mandatory: bool | None = None) -> Characteristic:
    """Return a characteristic with limits; its traits come from the book."""
    return _of_book(id, bounds.basis, mandatory, bounds=bounds)


def attribute(id: str, basis: Basis, mandatory: bool | None = None, bounds: Bounds | None = None) -> Characteristic:
    """Return a yes-or-no characteristic; `true` means that the requirement, as a load to be held, is met."""
    return _of_book(id, basis, mandatory, (True,), bounds)


def category(id: str, basis: Basis, allowed: tuple[bool | str, ...], mandatory: bool | None = None) -> Characteristic:
    """Return a characteristic that is met by one of a few words."""
    return _of_book(id, basis, mandatory, allowed)


def hardness(id: str, scales: dict[str, Bounds]) -> Characteristic:
    """Return a hardness, each scale with its own limits; those of the first are its bounds."""
    return replace(measured(id, next(iter(scales.values()))), scales=scales)


def _of_book(
    id: str,
    basis: Basis,
    mandatory: bool | None,
    allowed: tuple[bool | str, ...] = (),
    bounds: Bounds | None = None,
) -> Characteristic:
    trait = traits()[id]
    return Characteristic(
        id,
        trait.kind,
        trait.group,
        trait.instrument,
        trait.destructive,
        trait.mandatory if mandatory is None else mandatory,
        basis,
        bounds,
        allowed,
        of_lot=trait.per == "lot",
    )
