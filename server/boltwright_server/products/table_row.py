"""From the columns of a printed product table to bounds with the contract's ids.

A column is a symbol, then `_min`, `_max` or `_nom`, then a suffix where it holds for one form only: `s_min_A` for
product grade A, `t_min_short` for short screws, `dk_max_knurled` for knurled heads.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from ..quantities import Bounds, weakest
from ..standards import Row
from .family import VARIANT_IDS

_ENDS = ("min", "max", "nom")
#: The end of a symbol that is its nominal value where the table prints no nominal column.
_NOMINAL_END = {"s": "max", "m": "max", "dk": "max", "d1": "min", "d2": "max"}


def dimensions_of(
    row: Row, suffixes: Sequence[str], ids: Mapping[str, str], without: Iterable[str] = ()
) -> dict[str, Bounds]:
    """Return every dimension that the row gives for a form of the product; an empty cell leaves a side open."""
    skipped = set(without)
    found = {}
    for symbol, id in ids.items():
        bounds = None if symbol in skipped else _bounds(row, symbol, suffixes)
        if bounds is not None:
            found[id] = bounds
    for (symbol, variant), id in VARIANT_IDS.items():
        bounds = _bounds(row, symbol, (variant, *suffixes)) if _has_variant(row, symbol, variant) else None
        if bounds is not None:
            found[id] = bounds
    return found


def _has_variant(row: Row, symbol: str, variant: str) -> bool:
    return any(f"{symbol}_{end}_{variant}" in row.cells for end in _ENDS)


def _bounds(row: Row, symbol: str, suffixes: Sequence[str]) -> Bounds | None:
    columns = {end: _column(row, f"{symbol}_{end}", suffixes) for end in _ENDS}
    values = {end: None if column is None else row.get(column) for end, column in columns.items()}
    used = [column for end, column in columns.items() if column is not None and values[end] is not None]
    if not used:
        return None
    basis = row.basis(used[0])
    if len(used) > 1:
        checked = weakest(*(row.checked(column) for column in used))
        basis = replace(basis, checked=checked)
    nominal = values["nom"] if values["nom"] is not None else _nominal(row, symbol)
    return Bounds(symbol, *_same_decimals(values["min"], values["max"]), row.table.unit, basis, nominal)


def _nominal(row: Row, symbol: str) -> Decimal | None:
    column = f"{symbol}_{_NOMINAL_END.get(symbol)}"
    return row.get(column) if column in row.cells else None


def _column(row: Row, name: str, suffixes: Sequence[str]) -> str | None:
    """A column of its own for one of the suffixes, in their order, wins over the common one."""
    return next((column for column in (*(f"{name}_{one}" for one in suffixes), name) if column in row.cells), None)


def _same_decimals(low: Decimal | None, high: Decimal | None) -> tuple[Decimal | None, Decimal | None]:
    if low is None or high is None:
        return low, high
    finest = min(low, high, key=lambda value: value.as_tuple().exponent)
    return low.quantize(finest), high.quantize(finest)
