"""Tolerance classes of the product grades and the limits that they give.

ISO 4759-1:2000 (which class a feature has in grade A, B or C) and ISO 286-1:2010, Table 1 (what a class is worth).
"""

from __future__ import annotations

import re
from decimal import Decimal

from ..quantities import Bounds, NotCovered, weakest
from ..standards import standard

_CLASS = re.compile(r"(h|js|\+-IT)([0-9]+)")


def tolerance_class(feature: str, grade: str, size: Decimal) -> tuple[str, str]:
    """Return the tolerance class of a feature, as `js15`, and how it was checked.

    ISO 4759-1:2000, clauses 3 and 4.

    Raises:
        NotCovered: no class is held for that size.
    """
    table = standard("iso_4759_1_2000").table("tolerance_classes")
    row = table.find_in_band(size, feature, grade)
    if row is None:
        raise NotCovered(f"no tolerance class of ISO 4759-1:2000 is held for {feature} = {size} mm, grade {grade}")
    return row.word("class"), row.checked("class")


def limits_of_class(tolerance: str, size: Decimal) -> tuple[Decimal, Decimal, str]:
    """Return lower and upper deviation in mm and how the grade was checked.

    ISO 286-1:2010, Table 1; classes h (0 / -IT), js and +-IT.

    Raises:
        NotCovered: the nominal size lies outside 0 to 500 mm.
    """
    row = standard("iso_286_1_2010").table("table_1").find_in_band(size)
    match = _CLASS.fullmatch(tolerance)
    if row is None or match is None:
        raise NotCovered(f"ISO 286-1:2010 is held for sizes over 0 up to 500 mm, not for {size} mm")
    column = f"IT{match[2]}"
    grade = row.number(column)
    if match[1] == "h":
        return -grade, Decimal(0), row.checked(column)
    half = grade / 2 if match[1] == "js" else grade
    return -half, half, row.checked(column)


def length_bounds(length: Decimal, grade: str) -> Bounds:
    """Return the limits of a nominal length in mm.

    ISO 4759-1:2000: grade A js15, grade B js17 of ISO 286-1:2010; exact, not rounded.

    Raises:
        NotCovered: longer than 500 mm.
    """
    tolerance, class_checked = tolerance_class("l", grade, length)
    low, high, grade_checked = limits_of_class(tolerance, length)
    basis = standard("iso_4759_1_2000").basis(
        f"length, product grade {grade}: {tolerance} of ISO 286-1:2010", weakest(class_checked, grade_checked)
    )
    return Bounds("l", length + low, length + high, "mm", basis, length)
