"""Limits of size of ISO general purpose metric screw threads.

ISO 965-1:2013, clauses 6 to 11; ISO 965-4:1998 and ISO 965-5:1998 for galvanized threads. The tables decide, never the
formulas behind them.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import Basis, Bounds
from ..quantities.keeper import remembered
from ..quantities.rounding import half_up
from ..standards import other_source, rules
from .geometry import H_PER_PITCH, minor_diameter, pitch_diameter, tabulated
from .iso_metric import SYSTEM, MetricSize, ToleranceClass
from .iso_metric_tolerances import Tolerances, band_row, tolerances
from .rounded_root import root_max, root_min, root_radius
from .thread_limits import ThreadLimits

_UM = Decimal("0.001")


@remembered()
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


def _as_bounds(tolerance: ToleranceClass, cells: Tolerances) -> dict[str, Bounds]:
    internal = tolerance.member == "internal"
    deviation, pitch, crest = ("EI", "TD2", "TD1") if internal else ("es", "Td2", "Td")
    return {
        "fundamental_deviation": _um(deviation, cells.deviation, cells.deviation_basis),
        "pitch_diameter": _um(pitch, cells.pitch, cells.pitch_tolerance_basis),
        "minor_diameter" if internal else "major_diameter": _um(crest, cells.crest, cells.crest_tolerance_basis),
    }


@remembered()
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
    root = rules("ISO 965-1").clause("clause 11").computed(None, cells.pitch_basis.checked)
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
    note = "reference only: ISO 965-1 sets no greatest major diameter"
    reference = reference_basis().computed(None, cells.pitch_basis.checked, note=note)
    return limits, {"major_diameter": _mm("D", None, D_max, reference)}


def reference_basis() -> Basis:
    """Return the basis of the greatest major diameter of a nut, which ISO 965-1 does not limit."""
    return other_source("ASME B1.13M", "Table of limits of size")


@remembered()
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


@remembered()
def _engagement(size: MetricSize) -> dict[str, Bounds]:
    """Lengths of thread engagement; ISO 965-1:2013, Table 6. Empty where the table has no such row."""
    row = band_row("table_6", size)
    if row is None:
        return {}
    over, up_to = row.number("N_over"), row.number("N_up_to")
    basis = row.basis("N_up_to")
    return {
        "short": Bounds("S", None, over, "mm", basis),
        "normal": Bounds("N", over, up_to, "mm", basis),
        "long": Bounds("L", up_to, None, "mm", basis),
    }
