"""The effect of a change on one part: held figures are compared, what is not held is said to be not held."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from ...coating import Coating
from ...designations import ProductDesignation, parse_coating, parse_product
from ...designations.reader import LONGEST
from ...products import LookAlike, Product, dimensions
from ...products.look_alikes import differences as known_differences
from ...quantities import Bounds, Refusal
from ...quantities.keeper import remembered
from ...specification import specification_of
from ...specification.characteristic import property_of_scale
from ...specification.comparison import Difference, compared, differences
from ...threads import MetricSize
from ..meaning.requirement import Requirement
from .change import PLAIN, Change, Side

#: `no_counterpart`: the other standard has no such part.
EFFECTS = ("changes", "untouched", "no_counterpart", "not_judged")
_REMEMBERED = 2048
_NOT_CONCERNED = "the change does not concern this part"
_EQUAL = "every figure that is held is equal"
_UNCERTAIN = "which product is meant is not certain: {}"
_ONLY_KNOWN = "only the known differences of {} are held: what is not listed is not thereby equal"
_NOTHING_KNOWN = "no differing dimension of {} is held at {}, which does not prove it equal to {}"
_NO_CLASS = "no property class is given: strength, hardness and marking are not compared"


@dataclass(frozen=True, slots=True)
class Effect:
    """What becomes of a part; `name` is one of `EFFECTS`."""

    name: str
    differences: tuple[Difference, ...] = ()
    reasons: tuple[str, ...] = ()
    to_designation: str | None = None


def effect_on(found: Requirement, given: Mapping[str, Any], change: Change) -> Effect:
    """Return the effect of a change on what a row asks for.

    Raises:
        Refusal: a figure that the comparison needs is not held.
    """
    if found.designation is None or (found.part is None and found.reading.standard is None):
        return _of_uncertain(found, change)
    if change.before.kind == "coating":
        return _of_coating(found, given, change)
    if change.before.kind == "standard":
        return _of_rules(found, given, change)
    if not _concerned(found, change.before):
        return Effect("untouched", reasons=(_NOT_CONCERNED,))
    missing = tuple(side.not_held for side in (change.before, change.after) if side.not_held)
    if missing:
        return Effect("not_judged", reasons=missing)
    if change.before.former is not None or change.after.former is not None:
        return _of_former(found, change)
    return _of_products(_part(found), change.before, change.after)


def _of_uncertain(found: Requirement, change: Change) -> Effect:
    """A row that names another standard, or whose candidates are all others, is untouched whatever it means."""
    reasons = [one.detail for one in found.findings] or ["nothing in the row names a product that is held"]
    before = change.before
    if before.kind in ("product", "former"):
        owner = before.id if before.product is None else before.product.standard.id
        named = found.reading.standard
        if named is not None and named not in (before.id, owner):
            return Effect("untouched", reasons=(_NOT_CONCERNED,))
        if found.alternatives and not any(name.startswith(f"{before.id} - ") for name in found.alternatives):
            return Effect("untouched", reasons=(_NOT_CONCERNED,))
        if found.alternatives:
            reasons = [_UNCERTAIN.format(" or ".join(found.alternatives))]
    return Effect("not_judged", reasons=tuple(dict.fromkeys(reasons)))


def _concerned(found: Requirement, side: Side) -> bool:
    if side.former is not None:
        return found.reading.standard == side.former.former
    return found.part is not None and side.product is not None and found.part.product.id == side.id


def _part(found: Requirement) -> ProductDesignation:
    """The part of a row with its own length."""
    assert found.part is not None
    return replace(found.part, length=found.length if found.part.product.has_length else None)


def _of_products(part: ProductDesignation, before: Side, after: Side) -> Effect:
    """Compare in the editions that the change names, whatever edition the row was read in."""
    assert before.product is not None
    assert after.product is not None
    try:
        after.product.row(part.size)
    except Refusal as refusal:
        return Effect("no_counterpart", reasons=(refusal.detail,))
    return _between(replace(part, product=before.product), replace(part, product=after.product))


@remembered(_REMEMBERED)
def _between(before: ProductDesignation, after: ProductDesignation) -> Effect:
    """Compare two parts; without a property class by their dimensions only."""
    if before.property_class is None:
        return _by_dimensions(before, after)
    first, second = specification_of(before), specification_of(after)
    found = differences(first, second)
    notices = tuple(one for one in second.notices if one not in first.notices)
    reasons = notices if found else (_EQUAL, *notices)
    return Effect("changes" if found else "untouched", found, reasons, second.designation)


def _by_dimensions(before: ProductDesignation, after: ProductDesignation) -> Effect:
    first, second = (dimensions(one.product, one.size, one.length).dimensions for one in (before, after))
    ids = dict.fromkeys((*first, *second))
    pairs = (compared(id, "dimension", first.get(id), second.get(id)) for id in ids)
    found = tuple(one for one in pairs if one is not None)
    return Effect("changes" if found else "not_judged", found, (_NO_CLASS,), after.canonical)


def _of_former(found: Requirement, change: Change) -> Effect:
    """One side is a former standard: only the dimensions in which it is known to differ can be compared."""
    former, product = change.before.former or change.after.former, change.before.product or change.after.product
    if former is None or product is None:
        return Effect("not_judged", reasons=(f"neither {change.before.cited} nor {change.after.cited} is held",))
    if product.id not in former.partners:
        partners = " and ".join(former.partners) or "no standard"
        return Effect("not_judged", reasons=(f"{former.former} is held against {partners} only, by what differs",))
    part = _partner_part(found, product)
    if part is None:
        return Effect("no_counterpart", reasons=(f"{product.cited} has no such part",))
    to = part.canonical if change.after.product is not None else None
    return _known(former, product, part, reverse=change.after.former is not None, to=to)


def _partner_part(found: Requirement, product: Product) -> ProductDesignation | None:
    if found.part is not None and found.part.product.id == product.id:
        return _part(found)
    named = (name for name in found.alternatives if name.startswith(f"{product.id} - "))
    return next((parse_product(name) for name in named), None)


def _known(former: LookAlike, product: Product, part: ProductDesignation, reverse: bool, to: str | None) -> Effect:
    size = part.size.designation if isinstance(part.size, MetricSize) else product.size_name(part.size)
    held = dimensions(product, part.size, part.length, part.property_class).dimensions
    found = []
    for one in known_differences(former, size):
        if one.limit == "min" and one.dimension != "inner_diameter":
            continue
        nominal = Bounds(one.symbol, one.former, one.former, "mm", one.former_basis, one.former)
        sides = (nominal, held.get(one.dimension))
        difference = compared(one.dimension, "dimension", *(reversed(sides) if reverse else sides))
        if difference is not None:
            found.append(difference)
    if not found:
        return Effect(
            "not_judged", reasons=(_NOTHING_KNOWN.format(former.former, size, product.cited),), to_designation=to
        )
    return Effect("changes", tuple(found), (_ONLY_KNOWN.format(former.former),), to)


def _of_coating(found: Requirement, given: Mapping[str, Any], change: Change) -> Effect:
    """Parts with the coating that the change starts from; words such as `zinc plated` name no coating of a standard."""
    if found.part is None:
        return Effect("not_judged", reasons=(f"{found.reading.standard} is not held: its thread is not known",))
    coating = _stated_coating(found, given)
    before, after = change.before.coating, change.after.coating
    if isinstance(coating, str):
        return _of_words(coating, before)
    if (coating.designation if coating else PLAIN) != change.before.id:
        return Effect("untouched", reasons=(_NOT_CONCERNED,))
    part = _part(found)
    if part.product.member is None:
        return Effect("not_judged", reasons=("coatings are held for threads: this part has none",))
    return _between(replace(part, coating=before), replace(part, coating=after, mark=""))


def _of_words(words: str, before: Coating | None) -> Effect:
    if before is None or (before.process == "zinc flake") != (words == "zinc flake"):
        return Effect("untouched", reasons=(_NOT_CONCERNED,))
    reason = f"{words!r} does not say which coating of a standard: name it, as {before.designation}"
    return Effect("not_judged", reasons=(reason,))


def _stated_coating(found: Requirement, given: Mapping[str, Any]) -> Coating | str | None:
    """The coating that a row names in the words of a standard, else the words that were read."""
    assert found.part is not None
    readers: list[tuple[str, Callable[[str], Coating | None]]] = [("coating", parse_coating)]
    if found.reading.left_over:  # a designation such as Fe/Zn8 is not among the words that are understood
        readers += [("designation", _coating_in), ("description", _coating_in)]
    for member, read in readers:
        text = given.get(member)
        if isinstance(text, str) and 0 < len(text) <= LONGEST:
            try:
                coating = read(text)
            except Refusal:
                continue
            if coating is not None:
                return coating
    return found.part.coating or found.reading.coating


def _coating_in(text: str) -> Coating | None:
    return parse_product(text).coating


def _of_rules(found: Requirement, given: Mapping[str, Any], change: Change) -> Effect:
    """Two editions of a standard of properties or coatings: what is held of both is little, and is said."""
    if found.part is None:
        return Effect("not_judged", reasons=(f"{found.reading.standard} is not held: its requirements are not known",))
    if change.before.family == "coating":
        return _of_coating_rules(_stated_coating(found, given), change)
    part = _part(found)
    if part.property_class is None:
        return Effect("not_judged", reasons=(_NO_CLASS,))
    minimums = specification_of(part).mechanical
    if minimums is None or minimums.standard != change.before.id:
        return Effect("untouched", reasons=(_NOT_CONCERNED,))
    pairs = (
        compared(
            property_of_scale().get(scale, scale),
            "mechanical",
            editions.get(change.before.edition),
            editions.get(change.after.edition),
        )
        for scale, editions in minimums.disputed.items()
        if {change.before.edition, change.after.edition} <= set(editions)
    )
    known = tuple(one for one in pairs if one is not None)
    return Effect("changes" if known else "not_judged", known, (_not_compared(change),), part.canonical)


def _of_coating_rules(coating: Coating | str | None, change: Change) -> Effect:
    if isinstance(coating, str):
        return Effect("not_judged", reasons=(f"{coating!r} does not say which coating of a standard is meant",))
    if coating is None or coating.standard != change.before.id:
        return Effect("untouched", reasons=(_NOT_CONCERNED,))
    return Effect("not_judged", reasons=(_not_compared(change),))


def _not_compared(change: Change) -> str:
    missing = " and ".join(side.not_held for side in (change.before, change.after) if side.not_held)
    told = f": {missing}" if missing else ""
    return f"the requirements of {change.before.cited} and {change.after.cited} are not both held in full{told}"
