"""A change that a catalogue is held against: from one standard, edition or coating to another.

What is held decides what can be judged: former standards by their known differences only, superseded editions mostly
not at all. A side that is not held is understood, and said to be not held; it is never replaced by one that is.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ...coating import Coating
from ...designations import parse_coating
from ...products import LookAlike, Product, find_product, look_alike_in
from ...quantities import Contradiction, Refusal, UnknownName, asked_as
from ...quantities.basis import cited
from ...standards import all_standards, current

Kind = Literal["product", "former", "standard", "coating"]
FROM, TO = "from", "to"
#: Says that a part has no coating.
PLAIN = "none"


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a change. `id` is the number of a standard, `cited` how the side is named in sentences.

    `not_held` says why nothing can be judged by this side, else it is empty.
    """

    kind: Kind
    id: str
    cited: str
    product: Product | None = None
    former: LookAlike | None = None
    coating: Coating | None = None
    edition: str = ""
    #: Of a standard of properties or coatings: what it is about.
    family: str = ""
    not_held: str = ""


@dataclass(frozen=True, slots=True)
class Change:
    """From one side to another."""

    before: Side
    after: Side


def change_of(before: str, after: str) -> Change:
    """Read a change: two product standards or editions, a former standard and an ISO one, or two coatings.

    Raises:
        UnknownName: no such standard or coating; carries the nearest.
        Contradiction: sides that cannot follow one another, or twice the same.
    """
    with asked_as(FROM):
        first = _side(before)
    with asked_as(TO):
        second = _side(after)
    _check(first, second)
    return Change(first, second)


def _side(text: str) -> Side:
    name = " ".join(text.split())
    if name.lower() == PLAIN:
        return Side("coating", PLAIN, "no coating")
    former = look_alike_in(name)
    if former is not None and former.former.replace(" ", "").upper() == name.replace(" ", "").upper():
        return Side("former", former.former, former.former, former=former)
    coating = _coating(name)
    if coating is not None:
        return Side("coating", coating.designation, coating.designation, coating=coating)
    return _standard(name)


def _coating(name: str) -> Coating | None:
    try:
        return parse_coating(name)
    except Refusal:
        return None


def _standard(name: str) -> Side:
    """A product in an edition, or a standard of properties, coatings or tests."""
    number, _, edition = (part.strip() for part in name.partition(":"))
    try:
        product = find_product(number)
    except UnknownName as refusal:
        return _other_standard(number, edition, refusal)
    try:
        found = find_product(number, edition or None)
    except UnknownName as refusal:
        return Side("product", product.id, cited(product.id, edition), product, edition=edition,
                    not_held=f"{refusal.detail}: a superseded edition that is not held cannot be compared")  # fmt: skip
    return Side("product", found.id, found.named, found, edition=found.standard.edition)


def _other_standard(number: str, edition: str, refusal: UnknownName) -> Side:
    held = [one for one in all_standards() if one.id.upper() == number.upper()]
    if not held:
        raise refusal
    owner = next((one for one in held if one.edition == edition), None) if edition else current(held[0].id)
    if owner is not None:
        return Side("standard", owner.id, owner.cited, edition=owner.edition, family=owner.family)
    editions = " and ".join(one.edition for one in held)
    reason = f"{held[0].id} is held in its edition {editions}, not {edition}"
    return Side(
        "standard", held[0].id, cited(held[0].id, edition), edition=edition, family=held[0].family, not_held=reason
    )


def _check(before: Side, after: Side) -> None:
    if (before.id, before.edition) == (after.id, after.edition):
        raise Contradiction(f"from and to are both {before.cited}: nothing changes", member=TO)
    kinds = {before.kind, after.kind}
    if len(kinds) > 1 and kinds != {"product", "former"}:
        raise Contradiction(f"{before.cited} is a {before.kind}, {after.cited} is a {after.kind}", member=TO)
    if before.kind == "standard" and before.id != after.id:
        raise Contradiction(
            f"{before.cited} and {after.cited} are not editions of one standard, nor two product standards", member=TO
        )
    one, other = before.product, after.product
    if one is not None and other is not None and (one.member, one.has_length) != (other.member, other.has_length):
        items = f"{before.cited} is a {one.family.item}, {after.cited} a {other.family.item}"
        raise Contradiction(f"{items}: one does not follow the other", member=TO)
