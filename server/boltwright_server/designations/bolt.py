"""A bolt by its product designation (`ISO 4014 - M10x60 - 8.8`) or by thread and class (`1/2-13 - SAE J429 5`)."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from ..coating import Coating
from ..mechanical import Grade, find_grade
from ..quantities import Contradiction, NotUnderstood, Refusal, at_position
from ..threads import ThreadClass, ThreadSize, ToleranceClass
from .product import parse_product
from .reader import LONGEST
from .thread import names_thread, parse_thread

#: Where a thread may end and a class begin.
_BETWEEN = re.compile(r"\s*-\s+|\s+-\s*|\s+|-")
_FORM = "write a product as ISO 4014 - M10x60 - 8.8, or thread and class as M10 - 8.8 or 1/2-13 - SAE J429 5"


@dataclass(frozen=True, slots=True)
class BoltDesignation:
    """Thread, class and, where it is said, tolerance class and coating of a bolt."""

    canonical: str
    size: ThreadSize
    grade: Grade
    tolerance: ThreadClass | None = None
    coating: Coating | None = None


def parse_bolt(text: str) -> BoltDesignation:
    """Read a bolt.

    Raises:
        NotUnderstood: neither a product nor a thread with a class, or no class.
        Contradiction: a nut.
        UnknownName: as `parse_product` and `parse_thread`.
    """
    if len(text) > LONGEST:
        raise NotUnderstood(f"a designation has at most {LONGEST} characters", member="bolt", code="too_long")
    return _thread_and_class(text) if names_thread(text) else _product(text)


def _product(text: str) -> BoltDesignation:
    wanted = parse_product(text)
    if wanted.product.member != "external":
        raise Contradiction(f"{wanted.canonical} is no bolt", member="bolt")
    if wanted.property_class is None:
        raise NotUnderstood(f"{wanted.canonical}: name a property class", member="bolt", code="class_missing")
    tolerance = None if wanted.tolerance_class is None else ToleranceClass.parse(wanted.tolerance_class)
    grade = find_grade(wanted.property_class, "external")
    return BoltDesignation(wanted.canonical, wanted.size, grade, tolerance, wanted.coating)


def _thread_and_class(text: str) -> BoltDesignation:
    refused: Refusal | None = None
    for left, right, at in _splits(text):
        try:
            thread = parse_thread(left)
        except Refusal:
            continue
        try:
            with at_position(at):
                grade = find_grade(right, "external", "bolt")
        except Refusal as refusal:
            refused = refused or refusal
            continue
        tolerance = thread.external
        return BoltDesignation(f"{thread.canonical} - {grade.name}", thread.size, grade, tolerance)
    if refused is not None:
        raise refused
    raise NotUnderstood(f"cannot read {text[:40]!r}: {_FORM}", member="bolt", position=0, expected=[_FORM])


def _splits(text: str) -> Iterator[tuple[str, str, int]]:
    """Yield every way to part the text, with the place of the second part; the longest thread first."""
    for found in reversed(list(_BETWEEN.finditer(text))):
        left, right = text[: found.start()].strip(), text[found.end() :].strip()
        if left and right:
            yield left, right, found.end()
