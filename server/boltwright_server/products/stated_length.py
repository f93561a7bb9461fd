"""Limits of a length that no product grade decides: inch bolts and screws, rods as ordered.

ASME B18.2.1-2012, tables of length tolerances: by form of the end, nominal size and nominal length. Inch, exact.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import Bounds
from ..quantities.keeper import remembered
from ..standards import Row
from .product import AS_ORDERED, Product

_TABLE = "length_tolerance.csv"


def stated_length_bounds(product: Product, d: Decimal, length: Decimal) -> Bounds:
    """Return the limits of a nominal length; open on both sides where its standard, as it is held, gives none."""
    row = _row(product, d, length)
    plus, minus = (None, None) if row is None else (row.get("plus"), row.get("minus"))
    if row is None or plus is None or minus is None:
        basis = product.standard.basis("length", "memory", "tabulated", _why_open(product))
        symbol = "L" if product.family.inch else "l"
        return Bounds(symbol, None, None, product.table.unit, basis, length)
    basis = row.basis("minus").computed("nominal length and its tolerance")
    return Bounds("L", length - minus, length + plus, row.table.unit, basis, length)


def open_length_notices(product: Product, length: Bounds) -> list[str]:
    """Say so where the length has no limits."""
    return [] if length.min is not None else [f"{product.id}: {_why_open(product)}"]


def _why_open(product: Product) -> str:
    if product.options.length_class == AS_ORDERED:
        return "no product standard is named: the length and its tolerance are as ordered"
    if _TABLE not in product.standard.tables:
        return "length tolerances are not held"
    return "the table gives no length tolerance for this size and length"


def _row(product: Product, d: Decimal, length: Decimal) -> Row | None:
    for row in _rows_of_size(product, d):
        if row.number("l_over") < length <= row.number("l_up_to"):
            return row
    return None


@remembered(1024)
def _rows_of_size(product: Product, d: Decimal) -> tuple[Row, ...]:
    table = product.standard.tables.get(_TABLE)
    return tuple(
        row
        for row in (() if table is None else table.rows.values())
        if row.word("form") == product.options.length_form and row.number("d_min") <= d <= row.number("d_max")
    )
