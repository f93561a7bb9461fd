"""Estimates of one hardness scale, or of tensile strength, from another. Never a verdict.

ISO 18265:2013, Table A.1 (unalloyed and low-alloy steels); ASTM E140, Table 1 (non-austenitic steels).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal

from ..quantities import Basis, Contradiction, NotStandardised, UnknownName, weakest
from ..standards import Row, Table, rules

#: name of a table -> standard and file
_TABLES = {
    "ISO 18265 A.1": ("ISO 18265", "table_a_1"),
    "ASTM E140 1": ("ASTM E140", "table_1"),
}
TABLE_NAMES = tuple(_TABLES)
#: unit code -> column; tensile strength is the column that is known least
_COLUMNS = {"HV": "HV", "HBW": "HBW", "HRB": "HRB", "HRC": "HRC", "MPa": "Rm"}
SCALES = tuple(_COLUMNS)
ESTIMATE = (
    "An estimate. Acceptance is judged on the scale that was measured, against the limits of that scale; a converted "
    "value never decides."
)
_SURFACE = "Not for plated or decarburized surfaces, nor between micro and macro hardness."
_STRENGTH = "Tensile strength from hardness is the least reliable column of the table."


@dataclass(frozen=True, slots=True)
class Point:
    """A row of the table that lies at or beside the value."""

    given: Decimal
    wanted: Decimal


@dataclass(frozen=True, slots=True)
class Conversion:
    """An estimate between two rows of a table, in the digits that the table prints."""

    value: Decimal
    given: str
    wanted: str
    estimate: Decimal
    table: str
    material: str
    points: tuple[Point, ...]
    basis: Basis
    notices: tuple[str, ...]


def convert_hardness(value: Decimal, given: str, wanted: str, table: str = TABLE_NAMES[0]) -> Conversion:
    """Estimate a value on another scale by the straight line between the rows beside it.

    ISO 18265:2013, Table A.1 or ASTM E140, Table 1.

    Raises:
        UnknownName: no such scale or table.
        Contradiction: the scales are one, or the table does not hold one of them.
        NotStandardised: the value lies outside the rows; nothing is extrapolated.
    """
    facts = _table(table)
    columns = [_column(facts, name, member) for name, member in ((given, "from"), (wanted, "to"))]
    if given == wanted:
        raise Contradiction(f"{given} is already {wanted}", member="to")
    low, high = _rows_beside(facts, value, columns[0], columns[1], given)
    rows = (low,) if low is high else (low, high)
    points = tuple(Point(row.number(columns[0]), row.number(columns[1])) for row in rows)
    checked = weakest(*(row.checked(column) for row in rows for column in columns))
    printed = low is high
    basis = facts.standard.basis(facts.printed_as, checked, "tabulated" if printed else "computed", _how(printed))
    notices = (ESTIMATE, _SURFACE, *((_STRENGTH,) if "MPa" in (given, wanted) else ()))
    return Conversion(value, given, wanted, _between(points, value), table, facts.content, points, basis, notices)


def _how(printed: bool) -> str | None:
    return None if printed else "straight line between two rows"


def _table(name: str) -> Table:
    if name not in _TABLES:
        raise UnknownName(
            f"no conversion table {name[:40]!r}; held are {', '.join(_TABLES)}", member="table", nearest=TABLE_NAMES
        )
    number, file = _TABLES[name]
    return rules(number, holding=file).table(file)


def _column(table: Table, scale: str, member: str) -> str:
    if scale not in _COLUMNS:
        raise UnknownName(f"no scale {scale[:40]!r}; known are {', '.join(SCALES)}", member=member, nearest=SCALES)
    if _COLUMNS[scale] not in table.columns:
        held = [code for code, column in _COLUMNS.items() if column in table.columns]
        raise Contradiction(f"{table.cited} holds {', '.join(held)}, not {scale}", member=member)
    return _COLUMNS[scale]


def _rows_beside(table: Table, value: Decimal, given: str, wanted: str, scale: str) -> tuple[Row, Row]:
    """Return the rows at or around the value, twice the same where it is printed."""
    rows = [row for row in table.rows.values() if row.get(given) is not None and row.get(wanted) is not None]
    least, most = rows[0].number(given), rows[-1].number(given)
    if not least <= value <= most:
        raise NotStandardised(
            f"{table.cited} gives {wanted} for {least} to {most} {scale}, not for {value}; nothing is extrapolated",
            member="value",
        )
    low = max((row for row in rows if row.number(given) <= value), key=lambda row: row.number(given))
    high = min((row for row in rows if row.number(given) >= value), key=lambda row: row.number(given))
    return low, high


def _between(points: tuple[Point, ...], value: Decimal) -> Decimal:
    if len(points) == 1:
        return points[0].wanted
    low, high = points
    share = (value - low.given) / (high.given - low.given)
    finest = min(low.wanted, high.wanted, key=lambda one: one.as_tuple().exponent)
    return (low.wanted + share * (high.wanted - low.wanted)).quantize(finest, ROUND_HALF_EVEN)
