"""The sizes and symbols that the formulas of ISO 1502:1996, clause 13, speak of."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, NotCovered
from ..standards import Row, rules
from ..threads.geometry import H_PER_PITCH, minor_diameter, pitch_diameter, tabulated
from ..threads.iso_metric import MetricSize
from ..threads.iso_metric_tolerances import Tolerances
from .gauge import GaugeDimension

STANDARD = "ISO 1502"
F1_NOTE = (
    "F1 taken as H/8, which every cell seen of one reproduction fits; another source recalls 0.1 P, "
    "which moves this diameter by 0.0165 P. The pitch diameter is not affected."
)
_UM = Decimal("0.001")
_GRID = Decimal("0.0001")


@dataclass(frozen=True, slots=True)
class Frame:
    """Basic diameters, deviation and tolerance of the product thread with the row of gauge tolerances; mm."""

    d: Decimal
    d2: Decimal
    d1: Decimal
    deviation: Decimal
    tolerance: Decimal
    F1: Decimal
    row: Row
    thread: Basis

    @property
    def cited(self) -> str:
        """The gauge standard, as the trade cites it."""
        return self.row.table.standard.cited

    def um(self, column: str) -> Decimal:
        """Return a gauge tolerance in mm."""
        return self.row.number(column) * _UM

    def basis(self, formula: str, *columns: str, note: str | None = None) -> Basis:
        """Return the basis of a formula of clause 13 by its name in the facts; it uses these columns."""
        rule = self.row.table.standard.clause(f"clause 13, {formula}")
        marks = [self.row.checked(column) for column in columns]
        return rule.computed("clause 13", self.thread.checked, *marks, note=note)


def frame_of(size: MetricSize, cells: Tolerances) -> Frame:
    """Return the frame of one member of a thread.

    ISO 1502:1996, clause 13; basic diameters rounded to 0.001 mm as ISO 724 prints them.

    Raises:
        NotCovered: the pitch diameter tolerance lies outside 24 to 670 um.
    """
    table = rules(STANDARD).table("table_pitch_diameter")
    row = table.find_in_band(cells.pitch)
    if row is None:
        raise NotCovered(
            f"{table.standard.cited} has no gauge tolerances for a pitch diameter tolerance of {cells.pitch} um "
            "(it covers over 24 up to and including 670 um)",
            member="designation",
        )
    return Frame(
        size.d,
        tabulated(pitch_diameter(size.d, size.pitch)),
        tabulated(minor_diameter(size.d, size.pitch)),
        cells.deviation * _UM,
        cells.pitch * _UM,
        H_PER_PITCH * size.pitch / 8,
        row,
        cells.pitch_basis,
    )


def between(symbol: str, middle: Decimal, half: Decimal, basis: Basis) -> GaugeDimension:
    """Return middle plus and minus half, on the grid of 0.0001 mm that the formulas stand on."""
    return GaugeDimension(symbol, (middle - half).quantize(_GRID), (middle + half).quantize(_GRID), "mm", basis)


def wearing(symbol: str, middle: Decimal, half: Decimal, wear: Decimal, basis: Basis, worn: Basis) -> GaugeDimension:
    """Return `between` with a wear limit, which has a basis of its own."""
    low, high = (middle - half).quantize(_GRID), (middle + half).quantize(_GRID)
    return GaugeDimension(symbol, low, high, "mm", basis, wear.quantize(_GRID), worn)


def at_least(symbol: str, low: Decimal, basis: Basis) -> GaugeDimension:
    """Return a diameter that only has to clear the part."""
    return GaugeDimension(symbol, low.quantize(_GRID), None, "mm", basis)


def at_most(symbol: str, high: Decimal, basis: Basis) -> GaugeDimension:
    """Return a diameter that only has to clear the part."""
    return GaugeDimension(symbol, None, high.quantize(_GRID), "mm", basis)
