"""Loads of a grade: printed where its standard's table lists the thread, else the product by the standard's rounding.

Each standard rounds in its own way, so the same stress prints different loads; the rule stands in `load_rounding.csv`.
Where no load table was seen the product stays unrounded and says so.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from ..quantities import Basis, Bounds
from ..quantities.derivation import UNROUNDED, Rounding
from ..quantities.rounding import shortest
from ..standards import Row, Standard
from ..threads import MetricSize, ThreadSize

#: load id -> (symbol, columns of the load table, columns of the grade table whose stress it is)
_LOADS = {
    "tensile_load": ("Fm", ("tensile", "tensile_max"), ("tensile_min", "tensile_max")),
    "proof_load": ("Fp", ("proof", None), ("proof", None)),
    "yield_load": ("Fp at 0.2 % offset", ("proof_yield", None), None),
    "proof_load_overtapped": ("Fp, overtapped", (None, None), ("proof_overtapped", None)),
}


def grade_loads(facts: Standard, grade: Row, size: ThreadSize, area: Bounds) -> dict[str, Bounds]:
    """Return every load of a grade at a size, in lbf or N."""
    printed = _printed_row(facts, grade, size)
    found = {}
    for id, (symbol, columns, stresses) in _LOADS.items():
        bounds = None if printed is None else _printed(printed, symbol, columns)
        if bounds is None and stresses is not None:
            bounds = _computed(facts, grade, symbol, stresses, area)
        if bounds is not None:
            found[id] = bounds
    return found


def computed_loads(facts: Standard, loads: Mapping[str, Bounds]) -> tuple[str, ...]:
    """Say so where loads are products that were not rounded: a load table of the standard rounds them."""
    if not loads or "load_rounding.csv" in facts.tables:
        return ()
    return (
        f"{facts.id}: loads are computed, stress area x stress, and not rounded; the load table of the standard was "
        "not seen, and where it prints one its rounded load counts",
    )


def _printed_row(facts: Standard, grade: Row, size: ThreadSize) -> Row | None:
    table = facts.tables.get("loads.csv")
    if table is None or isinstance(size, MetricSize):
        return None
    names = [str(grade.cells[column]) for column in ("grade", "form") if column in table.key]
    return table.find(*names, size.d, size.threads_per_inch)


def _printed(row: Row, symbol: str, columns: tuple[str | None, str | None]) -> Bounds | None:
    low, high = (_number(row, column) for column in columns)
    if low is None or columns[0] is None:
        return None
    return Bounds(symbol, low, high, row.table.unit, row.basis(columns[0]))


def _number(row: Row, column: str | None) -> Decimal | None:
    return None if column is None or column not in row.cells else row.get(column)


def _computed(facts: Standard, grade: Row, symbol: str, columns: tuple[str, str | None], area: Bounds) -> Bounds | None:
    low, high = (_number(grade, column) for column in columns)
    if low is None:
        return None
    unit, per_stress = ("N", 1) if area.unit == "mm2" else ("lbf", 1000)
    assert area.nominal is not None
    products = [None if one is None else area.nominal * one * per_stress for one in (low, high)]
    least, most = (None if one is None else _rounded(facts, one) for one in products)
    return Bounds(symbol, least, most, unit, _basis(facts, grade, columns[0], area))


def _basis(facts: Standard, grade: Row, column: str, area: Bounds) -> Basis:
    rule = facts.tables.get("load_rounding.csv")
    note = "the product, not rounded: no load table of this standard was seen" if rule is None else rule.note
    return grade.basis(column).computed("stress area x stress", area.basis.checked, "formula", note=note)


def _rounded(facts: Standard, product: Decimal) -> Decimal:
    rounding = load_rounding(facts, product)
    return shortest(product) if rounding.to is None else rounding.of(product)


def load_rounding(facts: Standard, product: Decimal) -> Rounding:
    """Return how the load table of a standard rounds a product of stress area and stress."""
    table = facts.tables.get("load_rounding.csv")
    if table is None:
        return UNROUNDED
    rule = [row for row in table.rows.values() if row.number("load_from") <= product][-1]
    ties, step = rule.word("ties"), rule.get("step")
    if step is not None:
        return Rounding("half even" if ties == "even" else "half up", str(step))
    digits = str(rule.number("digits"))
    return Rounding("significant, half even" if ties == "even" else "significant, half up", digits)
