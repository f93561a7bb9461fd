"""The formulas behind the tables of ISO 965-1, built apart from the engine, which reads the tables only.

ISO 965-1:2013, clause 13, and the R40 series of ISO 3 (preferred numbers). Deviations and tolerances in um, lengths
in mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_HALF_EVEN, Decimal

from boltwright_server.standards import standard
from boltwright_server.threads import sizes

Band = tuple[Decimal, Decimal]

_R40 = (
    "1.00 1.06 1.12 1.18 1.25 1.32 1.40 1.50 1.60 1.70 1.80 1.90 2.00 2.12 2.24 2.36 2.50 2.65 2.80 3.00 "
    "3.15 3.35 3.55 3.75 4.00 4.25 4.50 4.75 5.00 5.30 5.60 6.00 6.30 6.70 7.10 7.50 8.00 8.50 9.00 9.50"
)
#: One decade of the series.
R40 = tuple(Decimal(text) for text in _R40.split())
#: Grade -> factor on grade 6; TD2 on grade 6 of Td2.
MULTIPLIERS = {
    "Td": {4: "0.63", 6: "1", 8: "1.6"},
    "TD1": {4: "0.63", 5: "0.8", 6: "1", 7: "1.25", 8: "1.6"},
    "Td2": {3: "0.5", 4: "0.63", 5: "0.8", 6: "1", 7: "1.25", 8: "1.6", 9: "2"},
    "TD2": {4: "0.85", 5: "1.06", 6: "1.32", 7: "1.7", 8: "2.12"},
}
#: Grade -> steps in the R40 series from the printed grade 6; TD2 from the printed Td2 of grade 6.
STEPS = {
    "Td": {4: -8, 6: 0, 8: 8},
    "TD1": {4: -8, 5: -4, 6: 0, 7: 4, 8: 8},
    "Td2": {3: -12, 4: -8, 5: -4, 6: 0, 7: 4, 8: 8, 9: 12},
    "TD2": {4: -3, 5: 1, 6: 5, 7: 9, 8: 13},
}
#: Position -> constant of the deviation (constant + 11 P), with its sign.
_DEVIATIONS = {"G": (15, 1), "g": (15, -1), "f": (30, -1), "e": (50, -1)}
_ENGAGEMENT = {"N_over": Decimal("2.24"), "N_up_to": Decimal("6.7")}
_TABLES = {"Td": "table_3", "TD1": "table_2", "Td2": "table_5", "TD2": "table_4"}


def table_of(cell: str) -> str:
    """Return the table in which a cell stands."""
    kind = cell.rpartition("_")[0]
    return _TABLES.get(kind, "table_6" if cell in _ENGAGEMENT else "table_1")


def table_cell(cell: str, pitch: Decimal, band: Band | None) -> Decimal | None:
    """Return what the table of the engine holds."""
    row = standard("iso_965_1_2013").table(table_of(cell)).find(*(band or ()), pitch)
    assert row is not None
    return row.get(cell)


def cells() -> Iterator[tuple[str, Decimal, Band | None, Decimal]]:
    """Yield every cell with a value of the tables that a formula stands behind."""
    for name in ("table_1", "table_2", "table_3", "table_4", "table_5", "table_6"):
        table = standard("iso_965_1_2013").table(name)
        for row in table.rows.values():
            band = (row.number("d_over"), row.number("d_up_to")) if "d_over" in row.cells else None
            for cell in table.columns:
                value = None if cell in table.key or cell in "abcdhH" else row.get(cell)
                if value is not None:
                    yield cell, row.number("pitch"), band, value


def formula(cell: str, pitch: Decimal, band: Band | None) -> Decimal:
    """Return the unrounded value of a cell."""
    if cell in _DEVIATIONS:
        constant, sign = _DEVIATIONS[cell]
        return sign * (constant + 11 * pitch)
    if cell in _ENGAGEMENT:
        return _ENGAGEMENT[cell] * pitch * _smallest_diameter(pitch, band) ** Decimal("0.2")
    kind, grade = cell.rsplit("_", 1)
    return _grade_6(kind, pitch, band) * Decimal(MULTIPLIERS[kind][int(grade)])


def _grade_6(kind: str, pitch: Decimal, band: Band | None) -> Decimal:
    if kind == "Td":
        return 180 * pitch ** (Decimal(2) / 3) - Decimal("3.15") / pitch.sqrt()
    if kind == "TD1":
        small = pitch <= Decimal("0.8")
        return 433 * pitch - 190 * pitch ** Decimal("1.22") if small else 230 * pitch ** Decimal("0.7")
    assert band is not None
    return 90 * pitch ** Decimal("0.4") * (band[0] * band[1]).sqrt() ** Decimal("0.1")


def _smallest_diameter(pitch: Decimal, band: Band | None) -> Decimal:
    assert band is not None
    return min(size.d for size in sizes() if size.pitch == pitch and band[0] < size.d <= band[1])


def by_rule(cell: str, pitch: Decimal, band: Band | None) -> Decimal:
    """Return the nearest R40 number: to whole um, halves to even; lengths to two digits, one decimal below 10."""
    exact = formula(cell, pitch, band)
    nearest = min(_series(exact), key=lambda number: abs(number - abs(exact)))
    quantum = Decimal("0.1") if cell in _ENGAGEMENT and nearest < 10 else Decimal(1)
    rounded = nearest.quantize(quantum, ROUND_HALF_EVEN)
    return -rounded if exact < 0 else rounded


def _series(exact: Decimal) -> list[Decimal]:
    """Return the R40 numbers of the decade of `exact` and the first of the next."""
    decade = Decimal(1).scaleb(exact.adjusted())
    return [number * decade for number in R40] + [10 * decade]


def by_steps(kind: str, grade: int, grade_6: Decimal) -> Decimal:
    """Return the R40 number a fixed number of steps from the printed grade 6, halves to the even um."""
    printed = [(number * Decimal(10) ** decade).normalize() for decade in range(1, 4) for number in R40]
    whole = [number.quantize(Decimal(1), ROUND_HALF_EVEN) for number in printed]
    return whole[whole.index(grade_6) + STEPS[kind][grade]]
