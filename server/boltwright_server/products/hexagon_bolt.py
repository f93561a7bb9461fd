"""Hexagon head bolts and screws of product grades A and B.

ISO 4014:2011, ISO 8765:2011 (plain shank), ISO 4017:2014, ISO 8676:2011 (thread to the head).
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import Bounds
from ..standards import Row, standard
from ..threads import MetricSize
from .product import Product, ProductDimensions, checked_length
from .product_grade import length_bounds
from .table_row import dimensions_of

_SHORT_THREAD, _LONG_THREAD = Decimal(125), Decimal(200)


def product_grade(d: Decimal, length: Decimal) -> str:
    """Return the product grade of a hexagon bolt or screw.

    ISO 4014:2011, scope: A for d <= 24 mm and l <= 10 d and l <= 150 mm, B beyond any of them.
    """
    return "A" if d <= 24 and length <= 10 * d and length <= 150 else "B"


def hexagon_bolt(product: Product, size: MetricSize, length: Decimal | None) -> ProductDimensions:
    """Return the dimensions of one hexagon bolt or screw in mm.

    Raises:
        UnknownName: the standard does not list the thread.
        NotUnderstood: the length is missing or not above zero.
        NotCovered: the length exceeds 500 mm.
    """
    row = product.row(size)
    length = checked_length(length, product)
    grade = product_grade(size.d, length)
    found = dimensions_of(row, grade)
    found["length"] = length_bounds(length, grade)
    notices = _length_notices(product, row, length)
    if not product.fully_threaded:
        found |= _thread_length(product, row, size, length, notices)
    return ProductDimensions(
        product.standard.id,
        product.standard.edition,
        size.designation,
        length,
        grade,
        "6g",
        found,
        tuple(notices),
    )


def _length_notices(product: Product, row: Row, length: Decimal) -> list[str]:
    shortest, longest = row.number("l_min"), row.number("l_max")
    cited = f"{product.standard.cited}, {row.table.printed_as}"
    if standard("iso_888_2012").table("table_1").find(length) is None:
        return [f"l = {length} mm is no nominal length of ISO 888:2012; its limits follow ISO 4759-1:2000 all the same"]
    if not shortest <= length <= longest:
        return [f"{cited}, lists {row.key[0]} from l = {shortest} to {longest} mm; l = {length} mm lies outside"]
    return []


def _thread_length(
    product: Product, row: Row, size: MetricSize, length: Decimal, notices: list[str]
) -> dict[str, Bounds]:
    """Reference thread length b, greatest grip length lg = l - b and least shank length ls = lg - 5 P.

    ISO 4014:2011, Tables 1 and 2.
    """
    column = _thread_length_column(length)
    b = row.get(column)
    if b is None:
        notices.append(f"{row.table.cited}, gives no thread length b for {row.key[0]} at l = {length} mm")
        return {}
    reference = row.basis(column, note="reference dimension: not judged; lg max and ls min are the limits")
    found = {"thread_length": Bounds("b", None, None, "mm", reference, b)}
    grip = length - b
    basis = row.basis(column).computed("lg max = l - b; ls min = lg max - 5 P", "memory")
    if grip > 0:
        found["grip_length"] = Bounds("lg", None, grip, "mm", basis)
    shank = grip - 5 * size.pitch
    if shank > 0:
        found["body_length"] = Bounds("ls", shank, None, "mm", basis)
    else:
        partner = {"ISO 4014": "ISO 4017", "ISO 8765": "ISO 8676"}.get(product.standard.id, "the fully threaded screw")
        notices.append(f"l = {length} mm leaves no plain shank beside b = {b} mm: order {partner}")
    return found


def _thread_length_column(length: Decimal) -> str:
    if length <= _SHORT_THREAD:
        return "b_l_le_125"
    return "b_l_le_200" if length <= _LONG_THREAD else "b_l_gt_200"
