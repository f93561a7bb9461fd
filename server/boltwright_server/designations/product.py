"""Product designations: text to standard, size, length and class, and back to the canonical text.

The designation clause of each product standard: `Hexagon head bolt ISO 4014 - M10x60 - 8.8`, here without the name.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from lark import Token, Tree

from ..coating import Coating
from ..coating.marking import UNDERSIZE, class_and_mark, tolerance_class_of
from ..mechanical import find_grade
from ..products import Product, find_product
from ..quantities import Contradiction, NotUnderstood, UnknownName
from ..standards import current
from ..threads import MetricSize, find_size, metric
from .coating import coating_of
from .numbers import number
from .reader import read
from .thread import parse_thread


@dataclass(frozen=True, slots=True)
class ProductDesignation:
    """What a product designation says. `property_class` is None where the text names none.

    `mark` is U, Z or X of ISO 10684 where the thread is cut undersize or oversize for galvanizing, else empty.
    """

    product: Product
    size: MetricSize
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
        size = self.size.designation if self.length is None else f"{self.size.designation}x{self.length}"
        parts = [self.product.standard.id, size]
        if self.property_class is not None:
            parts.append(self.property_class + self.mark)
        if self.coating is not None:
            parts.append(self.coating.designation)
        return " - ".join(parts)


@lru_cache(maxsize=4096)
def parse_product(text: str) -> ProductDesignation:
    """Read a product designation such as `ISO 4014 - M10x60 - 8.8` or `ISO 4032 - M10 - 8Z - tZn`.

    Raises:
        NotUnderstood: not of that form, a bolt without length, a nut with one.
        UnknownName: no such standard, edition, size, property class or coating is held.
        Contradiction: a mark for galvanized threads without the coating, or of the other member.
    """
    children = read(text, "product").children
    tokens = [child for child in children if isinstance(child, Token)]
    coating = next((coating_of(child) for child in children if isinstance(child, Tree)), None)
    body, standard_number = str(tokens[0]), str(tokens[1])
    product = find_product(_standard_id(body, standard_number))
    _check_edition(product, next((str(one) for one in tokens if one.type == "YEAR"), None))
    numbers = [number(one) for one in tokens if one.type == "NUMBER"]
    size, length = _size_and_length(product, numbers)
    given = next((str(one).upper() for one in tokens if one.type == "PROPERTY_CLASS"), None)
    mark = ""
    if given is not None:
        given, mark = class_and_mark(given)
        given = find_grade(given, product.member).name
        _check_mark(product, given, mark, coating)
    return ProductDesignation(product, size, length, given, coating, mark)


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
            f"{property_class}{mark}: U marks undersize bolts, Z and X mark oversize nuts (ISO 10684:2004)",
            member="designation",
        )


def parse_size(product: Product, text: str) -> MetricSize:
    """Read the size of a product without tolerance class: `M10`, `M10x1.25`; a washer also has `10`.

    Raises:
        NotUnderstood: not of that form, or with a tolerance class.
        UnknownName: ISO 261 has no such diameter or pitch.
        Contradiction: a size of another thread system.
    """
    bare = not product.names_thread and re.fullmatch(r"\s*[0-9]+(?:[.,][0-9]+)?\s*", text)
    thread = parse_thread(f"M{text.strip()}" if bare else text)
    if thread.classes:
        raise NotUnderstood("size is a thread such as M10, without tolerance class", member="size")
    return metric(thread.size, product.id, "size")


def _standard_id(body: str, standard_number: str) -> str:
    """Return `ISO 4014`: national and European adoptions of an ISO standard carry its number and text."""
    words = re.sub(r"\s+", " ", body.upper()).strip()
    return f"{'ISO' if words.endswith('ISO') else words} {standard_number}"


def _check_edition(product: Product, year: str | None) -> None:
    held = current(product.standard.id)
    if year is not None and held is not None and year != held.edition:
        raise UnknownName(
            f"{product.standard.id} is held in its edition {held.edition}, not {year}",
            member="designation",
            code="unknown_standard",
            nearest=[held.cited],
        )


def _size_and_length(product: Product, numbers: list[Decimal]) -> tuple[MetricSize, Decimal | None]:
    d, rest = numbers[0], numbers[1:]
    if len(rest) > 2 or (len(rest) == 2 and not product.has_length):
        raise NotUnderstood(
            f"{product.standard.id}: too many numbers after M{d}; write M10x60 or M10x1.25x60 for a bolt, "
            "M10 or M10x1.25 for a nut",
            member="designation",
        )
    if not product.has_length:
        return find_size(d, rest[0] if rest else _only_pitch(product, d)), None
    if not rest:
        raise NotUnderstood(
            f"{product.standard.id} needs a nominal length, as M{d}x60",
            member="designation",
            code="length_missing",
        )
    pitch = rest[0] if len(rest) == 2 else _only_pitch(product, d)
    length = rest[-1]
    return find_size(d, pitch), _plain(length)


def _only_pitch(product: Product, d: Decimal) -> Decimal | None:
    """Return the pitch of a fine-thread product that lists one thread of that diameter; None means coarse."""
    listed = [str(name) for name in product.table.column_values("thread")]
    of_diameter = [name for name in listed if name.split("x")[0] == f"M{d}"]
    if f"M{d}" in of_diameter or not of_diameter:
        return None
    if len(of_diameter) > 1:
        raise NotUnderstood(
            f"{product.standard.id} lists several pitches for M{d}: name one of {', '.join(of_diameter)}",
            member="designation",
        )
    return Decimal(of_diameter[0].split("x")[1])


def _plain(length: Decimal) -> Decimal:
    length = length.normalize()
    return length.quantize(Decimal(1)) if length == length.to_integral_value() else length
