"""Step by step to a valid designation: which sizes, lengths, classes and coatings a product can have."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from ..coating import Coating, electroplated, hot_dip_galvanized, zinc_flake
from ..designations import ProductDesignation
from ..products import Product, products
from ..quantities import Refusal
from ..quantities.keeper import remembered
from ..quantities.rounding import shortest
from ..standards import Row, rules
from ..threads import UNIFIED_INCH, ThreadSize, UnifiedSize
from .compose import specification_of

#: Coating metals that are offered; others may be written all the same.
_METALS = ("Zn", "ZnNi")
_AS_AGREED = "strength as agreed with the purchaser"
_INCH_SERIES = ("UNC", "UNF", "8-UN")


@dataclass(frozen=True, slots=True)
class Choice:
    """One value that the next step may have; `note` says what is worth knowing of it."""

    value: str
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Choices:
    """What may be chosen, and what the standard lists but cannot be specified at this size, with the reason.

    `free` means that the standard's list is not held and any length may be named.
    """

    values: tuple[Choice, ...]
    left_out: tuple[Choice, ...] = ()
    free: bool = False


@dataclass(frozen=True, slots=True)
class Configuration:
    """How far a designation has come. `plain` says that the product stays without coating."""

    product: Product | None = None
    size: ThreadSize | None = None
    length: Decimal | None = None
    property_class: str | None = None
    coating: Coating | None = None
    plain: bool = False

    @property
    def wanted(self) -> ProductDesignation | None:
        """The designation so far, None until a size is chosen."""
        if self.product is None or self.size is None:
            return None
        return ProductDesignation(self.product, self.size, self.length, self.property_class, self.coating)

    @property
    def complete(self) -> bool:
        """It can be specified; a coating may still follow."""
        return self.property_class is not None

    def next_step(self) -> tuple[str | None, Choices]:
        """Return the parameter to choose next with its values, None where nothing is left to choose.

        Raises:
            UnknownName: the standard does not list the size.
        """
        if self.product is None:
            return "standard", Choices(tuple(Choice(one.id, one.standard.title) for one in products()))
        wanted = self.wanted
        if self.size is None or wanted is None:
            return "size", sizes(self.product)
        if self.product.has_length and self.length is None:
            return "length", lengths(self.product, self.size)
        if self.property_class is None:
            return "property_class", property_classes(wanted)
        if self.coating is None and not self.plain and _is_coated(wanted):
            return "coating", coatings(wanted)
        return None, Choices(())


def sizes(product: Product) -> Choices:
    """Return the sizes that the product standard lists, as a designation writes them."""
    if not product.family.inch:
        rows = product.table.rows.values()
        return Choices(
            tuple(
                Choice(_written(product, row), "not preferred" if row.cells.get("preferred") == "no" else None)
                for row in rows
            )
        )
    listed = set(product.size_keys())
    found = [one for one in UNIFIED_INCH.sizes() if isinstance(one, UnifiedSize) and one.series in _INCH_SERIES]
    return Choices(tuple(Choice(one.short, one.series) for one in found if one.name in listed))


def _written(product: Product, row: Row) -> str:
    name = str(row.key[0])
    return name if product.names_thread else name.removeprefix("M")


def lengths(product: Product, size: ThreadSize) -> Choices:
    """Return the nominal lengths of ISO 888 within the range that the product standard lists for the size.

    Raises:
        UnknownName: the standard does not list the size.
    """
    row = product.row(size)
    if product.family.inch:
        return Choices((), free=True)
    held = row.cells.get("l_min") is not None and row.cells.get("l_max") is not None
    shortest_one, longest = (row.number("l_min"), row.number("l_max")) if held else (Decimal(0), Decimal(500))
    table = rules("ISO 888").table("table_1")
    found = [one for one in table.rows.values() if shortest_one <= one.number("l") <= longest]
    values = tuple(
        Choice(str(shortest(one.number("l"))), None if one.word("series") == "usual" else "to be avoided")
        for one in found
    )
    return Choices(values, free=not held)


def property_classes(wanted: ProductDesignation) -> Choices:
    """Return the classes that the product standard lists for the diameter and that can be specified.

    A class that it lists for other diameters is offered where its strength is as agreed at this one. `wanted` names
    product, size and length.
    """
    table = wanted.product.classes
    rows = () if table is None else tuple(table.rows.values())
    values: list[Choice] = []
    left_out: list[Choice] = []
    for row in rows:
        name, fits = str(row.key[0]), row.number("d_min") <= wanted.size.d <= row.number("d_max")
        try:
            found = specification_of(replace(wanted, property_class=name))
        except Refusal as refusal:
            left_out += [Choice(name, refusal.detail)] if fits else []
            continue
        agreed = "strength_as_agreed" in found.characteristics
        if fits or agreed:
            values.append(Choice(name, _AS_AGREED if agreed else None))
    return Choices(tuple(values), tuple(left_out))


def coatings(wanted: ProductDesignation) -> Choices:
    """Return the coatings for which the thread has room; none for inch products and stainless steel."""
    values: list[Choice] = []
    left_out: list[Choice] = []
    for coating in _offered() if _is_coated(wanted) else ():
        try:
            found = specification_of(replace(wanted, coating=coating))
        except Refusal as refusal:
            left_out.append(Choice(coating.designation, refusal.detail))
            continue
        fit = None if found.coating is None else found.coating.fit
        choice = Choice(coating.designation, None if fit is None or fit.fits else fit.detail)
        (values if choice.note is None else left_out).append(choice)
    return Choices(tuple(values), tuple(left_out))


def _is_coated(wanted: ProductDesignation) -> bool:
    """Coatings are held for metric threads; stainless steel is left bare (common practice)."""
    stainless = (wanted.property_class or "").startswith(("A", "C", "D", "F"))
    return not wanted.product.family.inch and not stainless


@remembered()
def _offered() -> tuple[Coating, ...]:
    nominal = rules("ISO 4042", holding="table_1").table("table_1").column_values("nominal")
    hours = rules("ISO 10683").table("reference_thickness").column_values("hours")
    thicknesses = [shortest(one) for one in nominal if isinstance(one, Decimal)]
    return (
        hot_dip_galvanized(),
        *(electroplated(metal, one) for metal in _METALS for one in thicknesses),
        *(zinc_flake(shortest(one)) for one in hours if isinstance(one, Decimal)),
    )
