"""Deviations and tolerances of ISO metric screw threads as printed, and the classes for which every cell is.

ISO 965-1:2013, Tables 1 to 5; ISO 965-4:1998 and ISO 965-5:1998 for galvanized threads.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, NotStandardised, Refusal, UnknownName, near_names
from ..quantities.keeper import remembered
from ..standards import Row, rules
from .hot_dip import CLASSES as HOT_DIP
from .hot_dip import hot_dip_cells, is_hot_dip
from .iso_metric import MetricSize, ToleranceClass

#: Recommended classes whose pitch and crest tolerances differ (ISO 965-1:2013, clause 12, memory).
_TWO_SYMBOLS = ("3h4h", "5h4h", "5h6h", "7h6h", "5g6g", "7g6g", "9g8g", "7e6e")
_GRADES = {"external": (4, 6, 8), "internal": (4, 5, 6, 7, 8)}
_POSITIONS = {"external": ("a", "b", "c", "d", "e", "f", "g", "h"), "internal": ("G", "H")}
#: Positions, the usual ones first.
_USUAL = "gHhGfedcba"


@dataclass(frozen=True, slots=True)
class Tolerances:
    """The tabulated cells behind one thread in um: deviations and tolerances, each with its basis.

    `pitch_basis` and `crest_basis` are those of a limit, which needs a deviation and a tolerance.
    """

    deviation: Decimal
    crest_deviation: Decimal
    pitch: Decimal
    crest: Decimal
    deviation_basis: Basis
    crest_deviation_basis: Basis
    pitch_tolerance_basis: Basis
    crest_tolerance_basis: Basis
    pitch_basis: Basis
    crest_basis: Basis


def classes(size: MetricSize) -> Iterator[ToleranceClass]:
    """Yield the classes of one symbol, the recommended ones of two and those for galvanized threads.

    Those for which ISO 965-1:2013, or ISO 965-4 and ISO 965-5, give every cell.
    """
    names = [
        f"{grade}{position}"
        for member, grades in _GRADES.items()
        for position in _POSITIONS[member]
        for grade in grades
    ]
    for name in (*names, *_TWO_SYMBOLS, *HOT_DIP):
        tolerance = ToleranceClass.parse(name)
        if _is_tabulated(size, tolerance):
            yield tolerance


def _is_tabulated(size: MetricSize, tolerance: ToleranceClass) -> bool:
    try:
        tolerances(size, tolerance)
    except Refusal:
        return False
    return True


@remembered()
def tolerances(size: MetricSize, tolerance: ToleranceClass) -> Tolerances:
    """Return the tabulated deviations and tolerances in um.

    ISO 965-1:2013, Tables 1 to 5; ISO 965-4 and ISO 965-5 for the classes of galvanized threads.

    Raises:
        NotStandardised, UnknownName: as `limits`.
    """
    try:
        return _tabulated(size, tolerance)
    except UnknownName as refusal:
        refusal.nearest = refusal.nearest or tuple(_nearest_classes(size, tolerance))
        raise


def _nearest_classes(size: MetricSize, tolerance: ToleranceClass) -> list[str]:
    held = (one.designation for one in classes(size) if one.member == tolerance.member)
    known = sorted(held, key=lambda name: _USUAL.find(name[1]))
    return list(near_names(tolerance.designation, known, 3))


def _tabulated(size: MetricSize, tolerance: ToleranceClass) -> Tolerances:
    if is_hot_dip(tolerance):
        found = hot_dip_cells(size, tolerance)
        return Tolerances(found.deviation, found.deviation, found.pitch, found.crest, *[found.basis] * 6)
    internal = tolerance.member == "internal"
    of_pitch, of_crest = ("TD2", "TD1") if internal else ("Td2", "Td")
    deviation = _cell("table_1", size, tolerance.pitch_position, "position")
    crest_deviation = _cell("table_1", size, tolerance.crest_position, "position")
    pitch_row = band_row("table_4" if internal else "table_5", size)
    pitch = _number(pitch_row, f"{of_pitch}_{tolerance.pitch_grade}", size, "grade")
    crest = _cell("table_2" if internal else "table_3", size, f"{of_crest}_{tolerance.crest_grade}", "grade")
    return Tolerances(
        deviation[0],
        crest_deviation[0],
        pitch[0],
        crest[0],
        deviation[1],
        crest_deviation[1],
        pitch[1],
        crest[1],
        _sum_basis(deviation[1], pitch[1]),
        _sum_basis(crest_deviation[1], crest[1]),
    )


def _cell(table: str, size: MetricSize, column: str, what: str) -> tuple[Decimal, Basis]:
    return _held_cell(table, size.pitch, column) or _number(_pitch_row(table, size.pitch), column, size, what)


@remembered()
def _held_cell(table: str, pitch: Decimal, column: str) -> tuple[Decimal, Basis] | None:
    """Remembers the cells that many threads share; None where the standard gives no value."""
    row = _pitch_row(table, pitch)
    value = None if row is None or column not in row.cells else row.get(column)
    return None if row is None or value is None else (value, row.basis(column))


def _pitch_row(table: str, pitch: Decimal) -> Row | None:
    return rules("ISO 965-1").table(table).find(pitch)


@remembered()
def band_row(table: str, size: MetricSize) -> Row | None:
    """Return the row of a table whose band of diameters holds the size, at its pitch."""
    return rules("ISO 965-1").table(table).find_in_band(size.d, size.pitch)


def _number(row: Row | None, column: str, size: MetricSize, what: str) -> tuple[Decimal, Basis]:
    symbol = column.split("_")[-1]
    if row is None:
        raise NotStandardised(
            f"{rules('ISO 965-1').cited} gives no tolerances for {size.designation}", member="designation"
        )
    if column not in row.cells:
        known = [name.split("_")[-1] for name in row.table.columns if name not in row.table.key]
        raise UnknownName(
            f"{row.table.cited} has no tolerance {what} {symbol}; it has {', '.join(known)}",
            member="designation",
            code="unknown_tolerance_class",
        )
    value = row.get(column)
    if value is None:
        raise NotStandardised(
            f"{row.table.cited} gives no {row.table.content.split(',')[0]} of {what} {symbol} "
            f"for {size.designation} (pitch {size.pitch} mm)",
            member="designation",
        )
    return value, row.basis(column)


@remembered()
def _sum_basis(deviation: Basis, tolerance: Basis) -> Basis:
    number = tolerance.clause.removeprefix("Table ")
    return deviation.computed(f"{deviation.clause.replace('Table', 'Tables')} and {number}", tolerance.checked)
