"""The engine of every product family: table of the standard, product grade, length, thread length."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from ..quantities import Bounds
from ..standards import Row, standard
from ..threads import MetricSize
from .product import Product, ProductDimensions
from .product_grade import length_bounds, product_grade
from .table_row import dimensions_of
from .thread_class import thread_tolerance_class
from .thread_length import ThreadLength, thread_length


def table_dimensions(
    product: Product, size: MetricSize, length: Decimal | None, property_class: str | None = None
) -> ProductDimensions:
    """Return the dimensions of one product in mm.

    Raises:
        UnknownName: the standard does not list the size.
        NotUnderstood: the length is missing, superfluous or not above zero.
        NotCovered: the length exceeds 500 mm.
    """
    row = product.row(size)
    length = product.checked_length(length)
    grade = product.options.grade or row.cells.get("grade") or product_grade(size.d, length or Decimal(0))
    tolerance = thread_tolerance_class(product, str(grade), property_class)
    notices = [] if tolerance is None or tolerance.notice is None else [tolerance.notice]
    thread = thread_length(product, row, size, length)
    found = dimensions_of(
        row,
        (str(grade), *_short_or_long(row, size, length, notices)),
        product.family.dimension_ids(),
        without=("ds",) if thread.to_head else (),
    )
    if "body_diameter" in found:
        found["body_diameter"] = replace(found["body_diameter"], nominal=size.d)
    if length is not None:
        found["length"] = length_bounds(length, str(grade), product.options.length_class)
        notices += [*_length_notices(row, length), *thread.notices]
    return ProductDimensions(
        product.standard.id,
        product.standard.edition,
        product.size_name(size),
        length,
        str(grade),
        None if tolerance is None else tolerance.designation,
        found | _thread_dimensions(thread),
        tuple(notices),
        thread.to_head,
    )


def _thread_dimensions(thread: ThreadLength) -> dict[str, Bounds]:
    return {
        id: bounds
        for id, bounds in (
            ("thread_length", thread.b),
            ("grip_length", thread.lg),
            ("body_length", thread.ls),
            ("unthreaded_length", thread.a),
        )
        if bounds is not None
    }


def _short_or_long(row: Row, size: MetricSize, length: Decimal | None, notices: list[str]) -> tuple[str, ...]:
    """Choose between the columns of short and of long set screws; between d and 2 d the standard's line is not held."""
    if length is None or not any(name.endswith("_short") for name in row.cells):
        return ()
    if length <= size.d:
        return ("short",)
    if length >= 2 * size.d:
        return ("long",)
    given = ", ".join(f"{name} {row.get(name)}" for name in row.cells if name.endswith(("_short", "_long")))
    notices.append(
        f"{row.table.cited}, has a line between short and long screws that is not held: no limit is given for "
        f"l = {length} mm, which lies between d and 2 d (the table prints {given})"
    )
    return ()


def _length_notices(row: Row, length: Decimal) -> list[str]:
    if standard("iso_888_2012").table("table_1").find(length) is None:
        return [f"l = {length} mm is no nominal length of ISO 888:2012; its limits follow ISO 4759-1:2000 all the same"]
    if "l_min" not in row.cells:
        return [f"{row.table.standard.cited}: the range of lengths is not held"]
    shortest, longest = row.number("l_min"), row.number("l_max")
    if not shortest <= length <= longest:
        cited = f"{row.table.standard.cited}, {row.table.printed_as}"
        return [f"{cited}, lists {row.key[0]} from l = {shortest} to {longest} mm; l = {length} mm lies outside"]
    return []
