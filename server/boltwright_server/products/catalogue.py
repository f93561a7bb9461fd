"""Which products are held, and the answer for each."""

from __future__ import annotations

import re
from decimal import Decimal

from ..quantities import UnknownName, near_names
from ..quantities.keeper import remembered
from ..standards import BadFacts, Standard, all_standards, current
from ..standards.editions import standing
from ..threads import ThreadSize
from .family import FAMILIES
from .product import Options, Product, ProductDimensions
from .table_engine import table_dimensions


@remembered()
def products() -> tuple[Product, ...]:
    """Return every product held, current editions only, in the order of the registry."""
    return tuple(
        product
        for one in all_standards()
        if one.family in FAMILIES and current(one.id) is one
        for product in products_of(one)
    )


@remembered()
def products_of(standard: Standard) -> tuple[Product, ...]:
    """Return the products of one standard: one for each `[[product]]` entry, or one where it has none.

    Raises:
        BadFacts: an entry that no family can be built from.
    """
    where = f"{standard.folder}/standard.toml, product"
    entries = [
        Product(standard, Options.of(entry, f"{where} {number}"))
        for number, entry in enumerate(standard.products, start=1)
    ]
    found = entries or [Product(standard)]
    for product in found:
        if product.options.table and product.options.table not in standard.tables:
            raise BadFacts(f"{where} {product.options.name!r}: there is no table {product.options.table!r}")
        if "thread" not in product.table.key:
            raise BadFacts(f"{product.table.where}: the table of sizes of a product needs the key 'thread'")
    return tuple(found)


@remembered(4096)
def find_product(name: str, edition: str | None = None) -> Product:
    """Return the product of that name: the number of its standard, as `ISO 4014`, and its own name if it has one.

    Case, spaces and the letters of a national or European adoption (DIN EN ISO 4014) do not matter. The edition may
    stand behind a colon; without one the current edition answers.

    Raises:
        UnknownName: no such product or edition is held; carries the nearest.
    """
    name, _, written = name.partition(":")
    edition = edition or written.strip() or None
    found = by_key().get(product_key(name))
    if found is not None and edition is not None:
        return _in_edition(found, edition)
    if found is not None:
        return found
    known = [product.id for product in products()]
    raise UnknownName(
        f"no product standard {name[:60]!r} is held; /v1/products lists those that are",
        member="standard",
        code="unknown_standard",
        nearest=_nearest(name, known),
    )


def product_key(name: str) -> str:
    """Return what distinguishes the name of a product: adoptions of an ISO or EN standard carry its number and text."""
    words = re.sub(r"\s+", "", name.upper().replace("HEXAGON", "HEX"))
    words = re.sub(r"^(?:DIN|BS|NF|UNI)?(?:EN)?ISO", "ISO", re.sub(r"^(?:DIN|BS|NF|UNI)EN(?=[0-9])", "EN", words))
    return re.sub(r"^(?:ANSI/?ASME|ANSI)", "ASME", words)


def _in_edition(product: Product, edition: str) -> Product:
    editions = [
        other
        for one in all_standards()
        if one.id == product.standard.id and one.family in FAMILIES
        for other in products_of(one)
        if other.id == product.id
    ]
    found = next((one for one in editions if one.standard.edition == edition), None)
    if found is None:
        held = [one.standard.edition for one in editions]
        raise UnknownName(
            f"{standing(product.standard.id, edition).told}; "
            f"{product.id} is held in its edition {' and '.join(held)}, not {edition}",
            member="standard",
            code="unknown_standard",
            nearest=[f"{product.id}:{one}" for one in held],
        )
    return found


@remembered()
def by_key() -> dict[str, Product]:
    """Return the current edition of every product by what distinguishes its name."""
    also = {product_key(name): product for product in products() for name in product.standard.also}
    return also | {product_key(product.id): product for product in products()}


def _nearest(name: str, known: list[str]) -> list[str]:
    key = product_key(name[:60])
    of_standard = [one for one in known if product_key(one).startswith(key)] if len(key) > 4 else []
    spelt = {re.sub(r"-\d+$", "", one): one for one in known} | {one: one for one in known}
    return list(dict.fromkeys([*of_standard[:4], *(spelt[one] for one in near_names(name, spelt))]))[:4]


@remembered(4096)
def dimensions(
    product: Product, size: ThreadSize, length: Decimal | None, property_class: str | None = None
) -> ProductDimensions:
    """Return the dimensions of one product in mm, of an inch product in inch.

    Raises:
        UnknownName, NotUnderstood, NotCovered: as the engine.
    """
    return table_dimensions(product, size, length, property_class)
