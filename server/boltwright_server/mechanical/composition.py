"""Chemical composition and tempering of the steels of a class, from any table with columns such as C_max."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ..quantities import Bounds
from ..standards import Row
from .answer import Steel

_ELEMENT = re.compile(r"([A-Z][a-z]?)_(?:min|max)")
_TREATMENTS = {"yes": "quenched and tempered", "no": None}


def steels_of(rows: Iterable[Row], name_column: str | None = None) -> tuple[Steel, ...]:
    """Return the steels of the given rows, mass fractions in percent of the cast analysis."""
    return tuple(_steel(row, name_column) for row in rows)


def _steel(row: Row, name_column: str | None) -> Steel:
    name = "any" if name_column is None else row.word(name_column).replace("_", " ")
    treated = row.cells.get("quenched_and_tempered")
    return Steel(
        name,
        _TREATMENTS.get(str(treated)),
        _elements(row),
        _tempering(row),
        row.basis(next(column for column in row.cells if column.endswith("_max"))),
    )


def _elements(row: Row) -> dict[str, Bounds]:
    symbols = dict.fromkeys(match[1] for column in row.cells if (match := _ELEMENT.fullmatch(column)))
    found = {}
    for symbol in symbols:
        low, high = (row.get(name) if name in row.cells else None for name in (f"{symbol}_min", f"{symbol}_max"))
        if low is not None or high is not None:
            column = f"{symbol}_max" if high is not None else f"{symbol}_min"
            found[symbol] = Bounds(symbol, low, high, "%", row.basis(column))
    return found


def _tempering(row: Row) -> Bounds | None:
    least = row.get("tempering_min") if "tempering_min" in row.cells else None
    if least is None:
        return None
    return Bounds("t", least, None, row.table.unit_of("tempering_min"), row.basis("tempering_min"))
