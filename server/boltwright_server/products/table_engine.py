"""The engine of every product family: table of the standard, product grade, length, thread length."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from ..quantities import Bounds
from ..quantities.keeper import remembered
from ..standards import Row, rules
from ..threads import ThreadSize
from .mass import Part, mass_per_1000, nominal_sizes
from .product import Product, ProductDimensions
from .product_grade import length_bounds, product_grade
from .stated_length import open_length_notices, stated_length_bounds
from .table_row import dimensions_of
from .thread_class import thread_tolerance_class
from .thread_length import ThreadLength, thread_length


@dataclass(frozen=True, slots=True)
class Form:
    """What size and length decide of a product before its table is read.

    `suffixes` choose among the columns of the table, `without` are the symbols of a shank that is not there.
    """

    length: Bounds | None
    thread: ThreadLength
    suffixes: tuple[str, ...]
    without: tuple[str, ...]
    notices: tuple[str, ...]


def form_of(product: Product, size: ThreadSize, length: Decimal | None) -> Form:
    """Return the form that a product has in that size and length; refuses as `table_dimensions` does."""
    row = product.row(size)
    length = product.checked_length(length)
    grade = _grade(product, row, size, length)
    thread = thread_length(product, row, size, length)
    notices: list[str] = []
    suffixes = (*((grade,) if grade else ()), *_short_or_long(row, size, length, notices))
    bounds = None if length is None else _length(product, size, length, grade)
    return Form(bounds, thread, suffixes, product.body_symbols if thread.to_head else (), tuple(notices))


def table_dimensions(
    product: Product, size: ThreadSize, length: Decimal | None, property_class: str | None = None
) -> ProductDimensions:
    """Return the dimensions of one product in mm, of an inch product in inch.

    Raises:
        UnknownName: the standard does not list the size.
        Contradiction: a size of another thread system.
        NotUnderstood: the length is missing, superfluous or not above zero.
        NotCovered: the length exceeds 500 mm.
    """
    row = product.row(size)
    grade = _grade(product, row, size, product.checked_length(length))
    tolerance = thread_tolerance_class(product, row, grade, property_class)
    form = form_of(product, size, length)
    notices = [] if tolerance is None or tolerance.notice is None else [tolerance.notice]
    notices += form.notices
    found = dict(dimensions_of_form(product, size, form.suffixes, form.without))
    if length is not None and form.length is not None:
        found["length"] = form.length
        notices += [*_length_notices(product, row, form.length, length), *form.thread.notices]
    found |= form.thread.dimensions()
    return ProductDimensions(
        product.standard.id,
        product.standard.edition,
        product.size_name(size),
        length,
        grade,
        None if tolerance is None else tolerance.designation,
        found,
        tuple(notices),
        form.thread.to_head,
        product.table.unit,
        _mass(product, size, found, form.thread),
        product.head,
        product.options.end,
    )


@remembered(4096)
def dimensions_of_form(
    product: Product, size: ThreadSize, suffixes: tuple[str, ...], without: tuple[str, ...]
) -> dict[str, Bounds]:
    """Return what depends on the length by nothing but the form that it decides; the caller copies it."""
    found = dimensions_of(product.row(size), suffixes, product.family.dimension_ids(), without)
    if "body_diameter" in found:
        found["body_diameter"] = replace(found["body_diameter"], nominal=size.d)
    return found


def _mass(product: Product, size: ThreadSize, found: dict[str, Bounds], thread: ThreadLength) -> Bounds | None:
    """Reference lengths count too: a bolt with a plain shank has its thread length."""
    nominal = nominal_sizes(found)
    threaded = None if thread.to_head else nominal.get("thread_length")
    part = Part(size, nominal.get("length", 0.0), threaded, nominal)
    return mass_per_1000(product.head, product.family.item, part, product.family.inch)


def _grade(product: Product, row: Row, size: ThreadSize, length: Decimal | None) -> str | None:
    """A metric product standard names its grade, or size and length decide."""
    if not product.has_grade:
        return None
    named = product.options.grade or row.cells.get("grade")
    return str(named) if named else product_grade(size.d, length or Decimal(0))


def _length(product: Product, size: ThreadSize, length: Decimal, grade: str | None) -> Bounds:
    if grade is not None:
        return length_bounds(length, grade, product.options.length_class)
    return stated_length_bounds(product, size.d, length)


def _short_or_long(row: Row, size: ThreadSize, length: Decimal | None, notices: list[str]) -> tuple[str, ...]:
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


def _length_notices(product: Product, row: Row, bounds: Bounds, length: Decimal) -> list[str]:
    if not product.has_grade:
        return open_length_notices(product, bounds)
    lengths, grades = rules("ISO 888"), rules("ISO 4759-1")
    if lengths.table("table_1").find(length) is None:
        return [
            f"l = {length} mm is no nominal length of {lengths.cited}; its limits follow {grades.cited} all the same"
        ]
    if "l_min" not in row.cells:
        return [f"{row.table.standard.cited}: the range of lengths is not held"]
    shortest, longest = row.get("l_min"), row.get("l_max")
    if shortest is None or longest is None:
        return [f"{row.table.cited}: no range of lengths is given for {row.key[0]}"]
    if not shortest <= length <= longest:
        cited = f"{row.table.standard.cited}, {row.table.printed_as}"
        return [f"{cited}, lists {row.key[0]} from l = {shortest} to {longest} mm; l = {length} mm lies outside"]
    return []
