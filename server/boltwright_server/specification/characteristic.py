"""A measurable requirement of a designation, and the trade's habits around it.

`characteristics.csv` holds kind, group, instrument, and whether a piece survives: common practice, ISO 3269 as a guide.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import Literal

from ..quantities import Basis, Bounds
from ..quantities.keeper import remembered

Kind = Literal["measured", "attribute", "category"]
State = Literal["before_coating", "as_delivered"]
GROUPS = ("dimension", "thread", "mechanical", "surface", "marking")
_TABLE = Path(__file__).with_name("characteristics.csv")


@dataclass(frozen=True, slots=True)
class Trait:
    """How the trade handles a characteristic."""

    kind: Kind
    group: str
    instrument: str
    destructive: bool
    mandatory: bool
    #: Whether each piece has a reading of its own, or the lot as a whole has one.
    per: Literal["piece", "lot"] = "piece"


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


@remembered()
def traits() -> dict[str, Trait]:
    """Return the traits of every characteristic that the service knows, by id."""
    kinds: dict[str, Kind] = {"measured": "measured", "attribute": "attribute", "category": "category"}
    per: dict[str, Literal["piece", "lot"]] = {"piece": "piece", "lot": "lot"}
    with _TABLE.open(encoding="utf-8", newline="") as file:
        return {
            row["id"]: Trait(
                kinds[row["kind"]],
                row["group"],
                row["instrument"],
                row["destructive"] == "yes",
                row["mandatory"] == "yes",
                per[row["per"]],
            )
            for row in csv.DictReader(file)
        }


def measured(id: str, bounds: Bounds, mandatory: bool | None = None) -> Characteristic:
    """Return a characteristic with limits; its traits come from the table."""
    trait = traits()[id]
    needed = trait.mandatory if mandatory is None else mandatory
    return Characteristic(
        id,
        trait.kind,
        trait.group,
        trait.instrument,
        trait.destructive,
        needed,
        bounds.basis,
        bounds,
        of_lot=trait.per == "lot",
    )


def attribute(id: str, basis: Basis, mandatory: bool | None = None) -> Characteristic:
    """Return a yes-or-no characteristic; `true` means that the requirement is met."""
    return category(id, basis, (True,), mandatory)


def category(id: str, basis: Basis, allowed: tuple[bool | str, ...], mandatory: bool | None = None) -> Characteristic:
    """Return a characteristic that is met by one of a few words."""
    trait = traits()[id]
    needed = trait.mandatory if mandatory is None else mandatory
    return Characteristic(
        id,
        trait.kind,
        trait.group,
        trait.instrument,
        trait.destructive,
        needed,
        basis,
        allowed=allowed,
        of_lot=trait.per == "lot",
    )
