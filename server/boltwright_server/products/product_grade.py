"""Product grades, the tolerance classes that they give a feature, and the limits of a class at any nominal size.

ISO 4759-1:2000 (which class a feature has in grade A, B or C), ISO 4759-3:2000 (washers) and ISO 286-1:2010 (what a
class is worth).
"""

from __future__ import annotations

import re
from decimal import Decimal

from ..quantities import Bounds, NotCovered, NotUnderstood, weakest
from ..standards import Row, rules

_CLASS = re.compile(r"(\+-IT|\+IT|EF|JS|js|K|H|h|[defDE])([0-9]{1,2})")
_LONGEST = Decimal(500)
_ZERO = Decimal(0)


def product_grade(d: Decimal, length: Decimal) -> str:
    """Return the product grade of a hexagon bolt or screw.

    ISO 4014:2011, scope: A for d <= 24 mm and l <= 10 d and l <= 150 mm, B beyond any of them.
    """
    scope = rules("ISO 4014", holding="grade_a").table("grade_a").rows["A",]
    longest = min(scope.number("l_over_d_max") * d, scope.number("l_max"))
    return "A" if d <= scope.number("d_max") and length <= longest else "B"


def tolerance_class(feature: str, grade: str, size: Decimal) -> tuple[str, str]:
    """Return the tolerance class of a feature, as `js15`, and how it was checked.

    ISO 4759-1:2000, clauses 3 and 4. `size` is the size that chooses the row: the feature's own, or d for `ds` and `m`.

    Raises:
        NotCovered: no class is held for that size.
    """
    table = rules("ISO 4759-1").table("tolerance_classes")
    row = table.find_in_band(size, feature, grade)
    if row is None:
        raise NotCovered(
            f"no tolerance class of {table.standard.cited} is held for {feature} = {size} mm, grade {grade}"
        )
    return row.word("class"), row.checked("class")


def limits_of_class(tolerance: str, size: Decimal) -> tuple[Decimal, Decimal, str]:
    """Return lower and upper deviation in mm and how they were checked.

    ISO 286-1:2010, Tables 1 to 5; classes h, H, js, JS, d, e, f, D, E, EF, K9 up to 3 mm, and +-IT and +IT, which
    fastener standards write. JS of an odd grade is not rounded here.

    Raises:
        NotUnderstood: no such class.
        NotCovered: the nominal size lies outside 0 to 500 mm, or the letter does not exist there.
    """
    match = _CLASS.fullmatch(tolerance)
    if match is None:
        raise NotUnderstood(
            f"{tolerance!r} is no tolerance class that is held: write h13, js15, H14, D12 or E11", member="class"
        )
    table = rules("ISO 286-1").table("table_1")
    row, column = table.find_in_band(size), f"IT{match[2]}"
    if row is None or column not in row.cells:
        raise NotCovered(
            f"{table.standard.cited} is held for IT1 to IT18 over 0 up to 500 mm, not for {tolerance} at {size} mm"
        )
    lower, upper, checked = _deviations(match[1], row.number(column), size, tolerance)
    return lower, upper, weakest(checked, row.checked(column))


def grade_of_class(tolerance: str) -> tuple[str, str]:
    """Return the letter of a class and the column of its grade: `js15` is ("js", "IT15")."""
    match = _CLASS.fullmatch(tolerance)
    assert match is not None, tolerance
    return match[1], f"IT{match[2]}"


def length_class(length: Decimal, grade: str, tolerance: str = "") -> str:
    """Return the class of a nominal length: `tolerance` where the product standard has its own, else the grade's.

    Raises:
        NotCovered: as `tolerance_class`.
    """
    return tolerance or tolerance_class("l", grade, length)[0]


def _cited() -> str:
    return rules("ISO 286-1").cited


def _deviations(letter: str, grade: Decimal, size: Decimal, tolerance: str) -> tuple[Decimal, Decimal, str]:
    known = rules("ISO 286-1").clauses["deviations of h, H and JS"]
    match letter:
        case "h":
            return -grade, _ZERO, known
        case "H" | "+IT":
            return _ZERO, grade, known
        case "js" | "JS":
            return -grade / 2, grade / 2, known
        case "+-IT":
            return -grade, grade, known
        case "K":
            if tolerance != "K9" or size > 3:
                raise NotCovered(f"{_cited()} is held for K9 up to 3 mm, not for {tolerance} at {size} mm")
            return -grade, _ZERO, rules("ISO 286-1").clauses["deviations of K"]
    row = rules("ISO 286-1").table("fundamental_deviations").find_in_band(size)
    near = None if row is None else row.get(letter)
    if row is None or near is None:
        raise NotCovered(f"{_cited()} gives no deviation {letter} at {size} mm")
    lower, upper = (near - grade, near) if letter.islower() else (near, near + grade)
    return lower, upper, row.checked(letter)


def length_bounds(length: Decimal, grade: str, tolerance: str = "") -> Bounds:
    """Return the limits of a nominal length in mm.

    ISO 4759-1:2000: grade A js15, grade B js17, grade C js17 up to 150 mm and twice that above, of ISO 286-1:2010;
    exact, not rounded. `tolerance` is the class of a product standard that does not follow its grade.

    Raises:
        NotCovered: longer than 500 mm.
    """
    if length > _LONGEST:
        raise NotCovered(f"{_cited()} is held up to {_LONGEST} mm, not for l = {length} mm", member="length")
    named, class_checked = (tolerance, "memory") if tolerance else tolerance_class("l", grade, length)
    low, high, grade_checked = limits_of_class(named, length)
    basis = rules("ISO 4759-1").basis(
        f"length, product grade {grade}: {named} of {_cited()}", weakest(class_checked, grade_checked)
    )
    return Bounds("l", length + low, length + high, "mm", basis, length)


def washer_bounds(feature: str, grade: str, nominal: Decimal, thickness: Decimal) -> Bounds:
    """Return the limits of a plain washer's hole (d1), outer diameter (d2) or thickness (h) in mm.

    ISO 4759-3:2000, clauses 3.1 to 3.3. `thickness` is the nominal one, which chooses the class.

    Raises:
        NotCovered: no class is held for that thickness.
    """
    facts = rules("ISO 4759-3")
    if feature == "h":
        row = _held(facts.table("thickness").find_in_band(thickness, grade), feature, thickness)
        half = row.number("tolerance")
        return Bounds("h", nominal - half, nominal + half, "mm", row.basis("tolerance", "computed"), nominal)
    row = _held(facts.table("tolerance_classes").find_in_band(thickness, feature, grade), feature, thickness)
    low, high, checked = limits_of_class(row.word("class"), nominal)
    basis = row.basis("class").computed(f"{row.table.printed_as}: {row.word('class')} of {_cited()}", checked)
    return Bounds(feature, nominal + low, nominal + high, "mm", basis, nominal)


def _held(row: Row | None, feature: str, thickness: Decimal) -> Row:
    if row is None:
        raise NotCovered(
            f"no tolerance of {rules('ISO 4759-3').cited} is held for {feature} of a washer {thickness} mm thick"
        )
    return row
