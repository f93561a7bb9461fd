"""Product designations: text to standard, size, length and class, and back to the canonical text.

The designation clause of each product standard: `Hexagon head bolt ISO 4014 - M10x60 - 8.8`, here without the name.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from lark import Token, Tree

from ..coating import Coating
from ..coating.marking import UNDERSIZE, class_and_mark, tolerance_class_of
from ..mechanical import find_grade
from ..products import LookAlike, Product, find_product, look_alike_in
from ..products.look_alikes import refusal
from ..products.not_held import refuse_not_held
from ..quantities import Contradiction, NotUnderstood, Refusal, UnknownName, asked_as, at_position
from ..quantities.keeper import remembered
from ..standards import rules
from ..threads import MetricSize, ThreadSize
from .coating import coating_of
from .near_parts import name_near_part
from .reader import at, read
from .sizes import length_text, size_and_length, size_in


@dataclass(frozen=True, slots=True)
class ProductDesignation:
    """What a product designation says. `property_class` is None where the text names none.

    `mark` is U, Z or X of ISO 10684 where the thread is cut undersize or oversize for galvanizing, else empty.
    """

    product: Product
    size: ThreadSize
    length: Decimal | None
    property_class: str | None
    coating: Coating | None = None
    mark: str = ""

    @property
    def tolerance_class(self) -> str | None:
        """The class that the mark gives to the thread, or None: the product standard decides."""
        return tolerance_class_of(self.mark)

    @property
    def canonical(self) -> str:
        """The canonical ASCII text."""
        size = self.product.size_name(self.size)
        if self.length is not None:
            size = f"{size}x{length_text(self.product, self.length)}"
        parts = [self.product.cited, size]
        if self.property_class is not None:
            parts.append(self.property_class + self.mark)
        if self.coating is not None:
            parts.append(self.coating.designation)
        return " - ".join(parts)


@remembered(4096)
def parse_product(text: str) -> ProductDesignation:
    """Read a product designation such as `ISO 4014 - M10x60 - 8.8` or `ISO 4032 - M10 - 8Z - tZn`.

    Raises:
        NotUnderstood: not of that form, a bolt without length, a nut with one.
        UnknownName: no such standard, edition, size, property class or coating is held.
        Contradiction: a mark for galvanized threads without the coating, or of the other member.
        NotCovered: a thread or product that is known by name and not held.
    """
    with asked_as("designation"):
        with at_position(0):
            refuse_former(text)
        try:
            return _parsed(text)
        except NotUnderstood as refusal:
            with at_position(0):
                refuse_not_held(text)
            name_near_part(refusal, text)
            raise
        except UnknownName as refusal:
            with at_position(0):
                if refusal.code == "unknown_standard":
                    refuse_not_held(text)
            raise


def accepted(text: str) -> ProductDesignation | None:
    """Return what `parse_product` returns, or None where it refuses; nothing is worked out of what would be right."""
    former = look_alike_in(text)
    try:
        return None if former is not None and former.held is None else _parsed(text)
    except Refusal:
        return None


def _parsed(text: str) -> ProductDesignation:
    children = read(text, "product").children
    tokens = [child for child in children if isinstance(child, Token)]
    coating = next((coating_of(child) for child in children if isinstance(child, Tree)), None)
    with at(tokens[0]):
        product = find_product(str(tokens[0]), next((str(one) for one in tokens if one.type == "YEAR"), None))
    size, length = size_and_length(product, tokens)
    given = next((one for one in tokens if one.type == "PROPERTY_CLASS"), None)
    if given is None:
        return ProductDesignation(product, size, length, None, coating)
    with at(given):
        bare, mark = class_and_mark(given.upper())
        named = named_class(product, bare)
        _check_mark(product, named, mark, coating)
    return ProductDesignation(product, size, length, named, coating, mark)


def refuse_former(text: str, size: str | None = None, member: str = "designation") -> None:
    """Refuse a text that starts with a former standard that is not held: it is never turned into what replaced it.

    Raises:
        UnknownName: it does; says what differs at the size, and carries the designation in the ISO standard.
    """
    found = look_alike_in(text)
    if found is not None and found.held is None:
        named = size or size_in(text)
        partner = in_partner(found, text, named)
        raise refusal(found, named or _size_of(partner), partner, member)


def _size_of(partner: str | None) -> str | None:
    """A washer's designation names no thread: the diameter is read in the ISO one."""
    size = None if partner is None else parse_product(partner).size
    return f"M{size.d}" if isinstance(size, MetricSize) else None


def in_partner(found: LookAlike, text: str, size: str | None = None) -> str | None:
    """Return the canonical designation of a former one in what replaced it, or None where it cannot be read as one."""
    former, partner = found.former.replace(" ", r"\s*"), found.partner(size)
    rest = re.sub(rf"^\s*{former}", "", text, flags=re.IGNORECASE)
    if partner is None:
        return None
    try:
        return parse_product(f"{partner.id} {rest}").canonical
    except Refusal:
        return None


def named_class(product: Product, text: str) -> str:
    """Return a property class, grade or hardness class by its canonical name.

    Raises:
        UnknownName: no standard held has it.
        Contradiction: a class of nuts for a bolt, or of bolts for a nut; 10.9S where every bolt is a structural one.
    """
    if product.family.hardness_only:
        return product.hardness_class(text)
    try:
        name = find_grade(text, product.member).name
    except Contradiction as refusal:
        refusal.member = "designation"
        raise
    if product.options.loadability == "structural" and name.endswith("S"):
        bare = name.removesuffix("S")
        raise Contradiction(
            f"{product.id} is for structural bolting whatever its class: write {bare}, not {name}", member="designation"
        )
    return name


def _check_mark(product: Product, property_class: str, mark: str, coating: Coating | None) -> None:
    """U belongs to bolts, Z and X to nuts, and all of them to hot-dip galvanizing."""
    if not mark:
        return
    if coating is None or coating.process != "hot dip galvanizing":
        raise Contradiction(
            f"{property_class}{mark}: {mark} marks a thread cut for hot dip galvanizing; write - tZn behind it",
            member="designation",
        )
    if (mark == UNDERSIZE) != (product.member == "external"):
        raise Contradiction(
            f"{property_class}{mark}: U marks undersize bolts, Z and X mark oversize nuts ({rules('ISO 10684').cited})",
            member="designation",
        )
