"""Tolerance class of the thread of a product.

ISO 4759-1:2000, clause on threads (class by member and product grade), and what a product standard says of its own.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from ..standards import BadFacts, Row, Table, rules
from .product import Product

#: Grade C bolts of this class and above take the class of grades A and B (memory).
_CLOSER_FROM = Decimal("8.8")
_COLUMN = "thread_class"


@dataclass(frozen=True, slots=True)
class ThreadClassOfProduct:
    """A tolerance class as written, and what is worth saying about it."""

    designation: str
    notice: str | None = None


def thread_tolerance_class(
    product: Product, row: Row, grade: str | None, property_class: str | None
) -> ThreadClassOfProduct | None:
    """Return the tolerance class of the thread before coating, or None for a product without thread.

    ISO 4759-1:2000; the table of requirements of the product standard where it names a class.
    """
    if product.member is None:
        return None
    if product.classes is not None and _COLUMN in product.classes.columns:
        return _listed(product.classes, product.class_row(property_class))
    if _COLUMN in row.cells or product.options.thread_class:
        own = row.word(_COLUMN) if _COLUMN in row.cells else product.options.thread_class
        return ThreadClassOfProduct(own)
    if grade is None:
        raise BadFacts(f"{product.table.where}: neither thread_class nor grade says which tolerance the thread has")
    table = rules("ISO 4759-1").table("thread_tolerance")
    of_grade = table.find(product.member, grade)
    if of_grade is None:
        raise BadFacts(f"{product.table.where}: ISO 4759-1 has no grade {grade!r}")
    if product.member == "external" and grade == "C" and _is_strong(property_class):
        source = f"{table.standard.cited}, memory"
        notice = f"grade C bolts of class {property_class} have the thread tolerance 6g ({source})"
        return ThreadClassOfProduct("6g", notice)
    return ThreadClassOfProduct(of_grade.word("class"))


def _listed(table: Table, row: Row | None) -> ThreadClassOfProduct:
    """The class that most property classes have answers where none is named, and the others are told."""
    if row is not None:
        return ThreadClassOfProduct(row.word(_COLUMN))
    by_class = {str(one.key[0]): one.word(_COLUMN) for one in table.rows.values()}
    words = list(by_class.values())
    usual = max(words, key=words.count)
    others = ", ".join(f"{word} for class {name}" for name, word in by_class.items() if word != usual)
    return ThreadClassOfProduct(usual, f"{table.cited}: thread tolerance {usual}, but {others}" if others else None)


def _is_strong(property_class: str | None) -> bool:
    try:
        return property_class is not None and Decimal(property_class.removesuffix("U")) >= _CLOSER_FROM
    except InvalidOperation:
        return False
