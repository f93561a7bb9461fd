"""Limits of size of ISO general purpose metric screw threads.

ISO 965-1:2013, clauses 6 to 11; ISO 965-4:1998 and ISO 965-5:1998 for galvanized threads. The tables decide, never the
formulas behind them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from ..quantities import Basis, Bounds, NotStandardised, Refusal, UnknownName, near_names, weakest
from ..quantities.rounding import half_up
from ..standards import Row, standard
from .geometry import H_PER_PITCH, minor_diameter, pitch_diameter, tabulated
from .hot_dip import CLASSES as HOT_DIP
from .hot_dip import hot_dip_cells, is_hot_dip
from .iso_metric import SYSTEM, MetricSize, ToleranceClass
from .rounded_root import root_max, root_min, root_radius
from .thread_limits import ThreadLimits

_UM = Decimal("0.001")


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


#: Recommended classes whose pitch and crest tolerances differ (ISO 965-1:2013, clause 12, memory).
_TWO_SYMBOLS = ("3h4h", "5h4h", "5h6h", "7h6h", "5g6g", "7g6g", "9g8g", "7e6e")
_GRADES = {"external": (4, 6, 8), "internal": (4, 5, 6, 7, 8)}
_POSITIONS = {"external": ("a", "b", "c", "d", "e", "f", "g", "h"), "internal": ("G", "H")}


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


#: Positions, the usual ones first.
_USUAL = "gHhGfedcba"


@cache
def limits(size: MetricSize, tolerance: ToleranceClass) -> ThreadLimits:
    """Return every limit of a thread.

    ISO 965-1:2013, clauses 6 to 11. Result in mm to 0.001.

    Raises:
        NotStandardised: a table gives no deviation or tolerance for this pitch, diameter, grade or position.
        UnknownName: no table has such a grade or position.
    """
    cells = tolerances(size, tolerance)
    members = _external if tolerance.member == "external" else _internal
    sizes, reference = members(size, cells)
    return ThreadLimits(
        system=SYSTEM,
        member=tolerance.member,
        nominal_diameter=size.d,
        pitch=size.pitch,
        series=size.series,
        tolerance_class=tolerance.designation,
        unit="mm",
        limits=sizes,
        tolerances=_as_bounds(tolerance, cells),
        reference=reference,
        engagement=_engagement(size),
    )


@cache
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
    pitch_row = _band_row("table_4" if internal else "table_5", size)
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


@cache
def _held_cell(table: str, pitch: Decimal, column: str) -> tuple[Decimal, Basis] | None:
    """Remembers the cells that many threads share; None where the standard gives no value."""
    row = _pitch_row(table, pitch)
    value = None if row is None or column not in row.cells else row.get(column)
    return None if row is None or value is None else (value, row.basis(column))


def _pitch_row(table: str, pitch: Decimal) -> Row | None:
    return standard("iso_965_1_2013").table(table).find(pitch)


@cache
def _band_row(table: str, size: MetricSize) -> Row | None:
    return standard("iso_965_1_2013").table(table).find_in_band(size.d, size.pitch)


def _number(row: Row | None, column: str, size: MetricSize, what: str) -> tuple[Decimal, Basis]:
    symbol = column.split("_")[-1]
    if row is None:
        raise NotStandardised(f"ISO 965-1:2013 gives no tolerances for {size.designation}", member="designation")
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


@cache
def _sum_basis(deviation: Basis, tolerance: Basis) -> Basis:
    number = tolerance.clause.removeprefix("Table ")
    return deviation.computed(f"{deviation.clause.replace('Table', 'Tables')} and {number}", tolerance.checked)


def _as_bounds(tolerance: ToleranceClass, cells: Tolerances) -> dict[str, Bounds]:
    internal = tolerance.member == "internal"
    deviation, pitch, crest = ("EI", "TD2", "TD1") if internal else ("es", "Td2", "Td")
    return {
        "fundamental_deviation": _um(deviation, cells.deviation, cells.deviation_basis),
        "pitch_diameter": _um(pitch, cells.pitch, cells.pitch_tolerance_basis),
        "minor_diameter" if internal else "major_diameter": _um(crest, cells.crest, cells.crest_tolerance_basis),
    }


@cache
def _um(symbol: str, value: Decimal, basis: Basis) -> Bounds:
    """Remembers the bounds that many threads share."""
    return Bounds(symbol, value, value, "um", basis, value)


def _external(size: MetricSize, cells: Tolerances) -> tuple[dict[str, Bounds], dict[str, Bounds]]:
    """Limits of a bolt thread; ISO 965-1:2013, clause 10 and, for the rounded root, clause 11."""
    es, crest_es = cells.deviation * _UM, cells.crest_deviation * _UM
    d, d2, d1 = basic_diameters(size)
    d_max = d + crest_es
    d2_max = d2 + es
    d2_min = d2_max - cells.pitch * _UM
    flat_max = d1 + es
    root = standard("iso_965_1_2013").basis("clause 11", weakest(cells.pitch_basis.checked, "formula"))
    limits = {
        "major_diameter": _mm("d", d_max - cells.crest * _UM, d_max, cells.crest_basis, d),
        "pitch_diameter": _mm("d2", d2_min, d2_max, cells.pitch_basis, d2),
        "minor_diameter": _mm("d1", None, flat_max, cells.pitch_basis, d1),
        "root_diameter": _mm("d3", root_min(size, d2_min), root_max(size, d2_max, cells.pitch, flat_max), root),
        "root_radius": _mm("R", half_up(root_radius(size.pitch), "0.001"), None, root),
    }
    stress = d1 - half_up(abs(es) + H_PER_PITCH * size.pitch / 6, "0.001")
    return limits, {"stress_minor_diameter": _mm("d3", stress, stress, root)}


def _internal(size: MetricSize, cells: Tolerances) -> tuple[dict[str, Bounds], dict[str, Bounds]]:
    """Limits of a nut thread; ISO 965-1:2013, clause 10. There is no greatest major diameter."""
    EI, crest_EI = cells.deviation * _UM, cells.crest_deviation * _UM
    D, D2, D1 = basic_diameters(size)
    D2_max = D2 + EI + cells.pitch * _UM
    D1_min = D1 + crest_EI
    D_min = D + EI
    limits = {
        "major_diameter": _mm("D", D_min, None, cells.pitch_basis, D),
        "pitch_diameter": _mm("D2", D2 + EI, D2_max, cells.pitch_basis, D2),
        "minor_diameter": _mm("D1", D1_min, D1_min + cells.crest * _UM, cells.crest_basis, D1),
    }
    D_max = half_up(D2_max + H_PER_PITCH * size.pitch * 11 / 12, "0.001")
    reference = Basis(
        "ASME B1.13M",
        "2005",
        "Table of limits of size",
        "computed",
        weakest(cells.pitch_basis.checked, "formula"),
        "reference only: ISO 965-1 sets no greatest major diameter",
    )
    return limits, {"major_diameter": _mm("D", None, D_max, reference)}


@cache
def basic_diameters(size: MetricSize) -> tuple[Decimal, Decimal, Decimal]:
    """Return d, d2 and d1 (equally D, D2 and D1) of the basic profile in mm to 0.001.

    ISO 724:1993, Table 1.
    """
    return (
        tabulated(size.d),
        tabulated(pitch_diameter(size.d, size.pitch)),
        tabulated(minor_diameter(size.d, size.pitch)),
    )


def _mm(symbol: str, low: Decimal | None, high: Decimal | None, basis: Basis, nominal: Decimal | None = None) -> Bounds:
    """Sums of basic diameters to 0.001 mm and whole um: nothing is left to round."""
    return Bounds(symbol, low, high, "mm", basis, nominal)


@cache
def _engagement(size: MetricSize) -> dict[str, Bounds]:
    """Lengths of thread engagement; ISO 965-1:2013, Table 6. Empty where the table has no such row."""
    row = _band_row("table_6", size)
    if row is None:
        return {}
    over, up_to = row.number("N_over"), row.number("N_up_to")
    basis = row.basis("N_up_to")
    return {
        "short": Bounds("S", None, over, "mm", basis),
        "normal": Bounds("N", over, up_to, "mm", basis),
        "long": Bounds("L", up_to, None, "mm", basis),
    }
