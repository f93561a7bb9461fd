"""From the columns of a printed product table to bounds with the contract's ids.

A column is a symbol, then `_min`, `_max` or `_nom`, then the product grade where it differs by grade: `s_min_A`.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from ..quantities import Bounds, weakest
from ..standards import Row

#: Symbol in a table's columns -> id in the answer. Other columns (key, pitch, words) are no dimensions.
DIMENSION_IDS = {
    "s": "width_across_flats",
    "e": "width_across_corners",
    "k": "head_height",
    "kw": "wrenching_height",
    "dw": "washer_face_diameter",
    "c": "washer_face_thickness",
    "da": "bearing_face_inner_diameter",
    "ds": "body_diameter",
    "lf": "transition_length",
    "r": "fillet_radius",
    "a": "unthreaded_length",
    "m": "nut_height",
    "mw": "nut_wrenching_height",
}
_ENDS = ("min", "max", "nom")
#: The end of a symbol that is its nominal value where the table prints no nominal column.
_NOMINAL_END = {"s": "max", "ds": "max", "m": "max"}


def dimensions_of(row: Row, grade: str, without: Iterable[str] = ()) -> dict[str, Bounds]:
    """Return every dimension that the row gives for a product grade; cells without a value leave a side open."""
    found = {}
    for symbol, id in DIMENSION_IDS.items():
        bounds = None if symbol in without else _bounds(row, symbol, grade)
        if bounds is not None:
            found[id] = bounds
    return found


def _bounds(row: Row, symbol: str, grade: str) -> Bounds | None:
    columns = {end: _column(row, f"{symbol}_{end}", grade) for end in _ENDS}
    values = {end: None if column is None else row.get(column) for end, column in columns.items()}
    if values["min"] is None and values["max"] is None:
        return None
    used = [column for end, column in columns.items() if column is not None and values[end] is not None]
    basis = row.basis(used[0], note=None)
    if len(used) > 1:
        checked = weakest(*(row.checked(column) for column in used))
        basis = type(basis)(basis.standard, basis.edition, basis.clause, "tabulated", checked)
    nominal = values["nom"] if values["nom"] is not None else values.get(_NOMINAL_END.get(symbol, ""))
    return Bounds(symbol, *_same_decimals(values["min"], values["max"]), row.table.unit, basis, nominal)


def _column(row: Row, name: str, grade: str) -> str | None:
    return next((column for column in (name, f"{name}_{grade}") if column in row.cells), None)


def _same_decimals(low: Decimal | None, high: Decimal | None) -> tuple[Decimal | None, Decimal | None]:
    if low is None or high is None:
        return low, high
    finest = min(low, high, key=lambda value: value.as_tuple().exponent)
    return low.quantize(finest), high.quantize(finest)
