"""Canonical texts of everything that a specification answers, with the members that they are made of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from random import Random

from tests.unit.designations.test_every_product import sizes_of

from boltwright_server.designations import ProductDesignation, parse_coating
from boltwright_server.mechanical import grades
from boltwright_server.part_masters.catalogue.validation import Validator
from boltwright_server.products import Product, look_alike_in, products
from boltwright_server.quantities import Refusal
from boltwright_server.specification import specification
from boltwright_server.threads import ThreadSize, UnifiedSize

#: Coatings of each kind that a standard designates.
COATINGS = ("tZn", "Fe/Zn8/An/T0", "Fe/ZnNi8", "Zn5", "A3L", "flZn-480h", "flZnnc-720h", "flZnncL-480h")


@dataclass(frozen=True, slots=True)
class Text:
    """A canonical text and what it was made of."""

    canonical: str
    part: ProductDesignation

    @property
    def members(self) -> dict[str, str]:
        """The row that says the same in members of its own."""
        part = self.part
        size = part.size.short if isinstance(part.size, UnifiedSize) else part.size.designation
        given = {"standard": part.product.cited, "thread": size}
        if part.length is not None:
            given["length"] = str(part.length)
        if part.property_class is not None:
            given["property_class"] = part.property_class + part.mark
        if part.coating is not None:
            given["coating"] = part.coating.designation
        return given


def classes_of(product: Product) -> list[str | None]:
    """Every class or grade that a part of that kind can be ordered in."""
    if product.family.hardness_only or product.member is None:
        return [None, *(product.classes.column_values("property_class") if product.classes else ())]
    return [None, *(one.name for one in grades() if one.member == product.member)]


def canonical_texts(chance: Random | None = None, share: float = 1.0) -> Iterator[Text]:
    """Yield every text, or a share of them drawn by chance, that a specification answers."""
    for product in products():
        names = classes_of(product)
        for size in sizes_of(product):
            for name in names:
                for coating in (None, *COATINGS):
                    # A coating is told apart by its own text: one in ten of them is enough for a class.
                    if chance is not None and chance.random() > (share if coating is None else share / 20):
                        continue
                    for mark in _marks(product, coating):
                        found = _text(product, size, name, coating, mark)
                        if found is not None:
                            yield found


def _marks(product: Product, coating: str | None) -> tuple[str, ...]:
    """ISO 10684:2004: bolts cut undersize, nuts cut oversize for the zinc."""
    if coating != "tZn" or product.member is None:
        return ("",)
    return ("", "U") if product.member == "external" else ("", "Z", "X")


def _text(product: Product, size: ThreadSize, name: str | None, coating: str | None, mark: str) -> Text | None:
    length = (Decimal("1.5") if product.family.inch else Decimal(60)) if product.has_length else None
    part = ProductDesignation(product, size, length, name, None if coating is None else parse_coating(coating), mark)
    try:
        specification(part.canonical)
    except Refusal:
        return None
    return Text(part.canonical, part)


#: What may truly be said of a part of which a specification is given.
_TRUE = frozenset(
    ("property-class-not-in-standard", "size-not-preferred", "length-not-in-standard", "length-not-preferred",
     "coating-without-room", "coating-not-in-standard", "hydrogen-embrittlement", "coating-not-judged",
     "edition-superseded")
)  # fmt: skip


def misread(chance: Random | None = None, share: float = 1.0) -> tuple[list[str], int]:
    """Return what is not read as itself, or with a finding that it does not deserve, and how many were read."""
    wrong = []
    texts = list(canonical_texts(chance, share))
    with Validator(repeats=False) as validator:
        for text in texts:
            for row in ({"designation": text.canonical}, {"description": text.canonical}, text.members):
                read = validator.validate(row)
                codes = {one.code for one in read.findings} - _TRUE
                if text.part.property_class is None:
                    codes -= {"requirement-missing"}
                if look_alike_in(text.canonical) is not None:
                    codes -= {"look-alike-standard"}
                if (text.part.property_class or "").startswith("ASTM"):
                    # ASTM A325 has been withdrawn.
                    codes -= {"edition-superseded"}
                if text.part.coating is not None:
                    # Stainless steel that is zinc plated; coatings of inch products for which no rule is held.
                    codes -= {"words-contradict", "coating-not-judged"}
                if read.designation != text.canonical or read.left_over or codes:
                    wrong.append(f"{row} -> {read.designation}, left over {read.left_over}, {sorted(codes)}")
    return wrong, len(texts)
