"""The limits of a metric thread step by step.

ISO 68-1:1998, ISO 724:1993 and ISO 965-1:2013, clauses 10 and 11; ISO 898-1:2013, clause 9.1.6.1 for the stress area.
Symbols as in the standards, with `es_d` and `EI_D1` where the crest has a position of its own.
"""

from __future__ import annotations

from ..quantities import Basis
from ..quantities.derivation import Derivation, Rounding, Step
from ..standards import other_source, rules
from .iso_metric import MetricSize, ToleranceClass, size_basis
from .iso_metric_limits import reference_basis
from .iso_metric_tolerances import Tolerances, tolerances

_TO_UM = Rounding("half up", "0.001")


def limits_derivation(size: MetricSize, tolerance: ToleranceClass) -> tuple[Step, ...]:
    """Return the steps to every limit of a thread; lengths in mm, deviations and tolerances in um.

    ISO 965-1:2013, clauses 10 and 11.

    Raises:
        NotStandardised, UnknownName: as `limits`.
    """
    work = Derivation()
    add_limits(work, size, tolerance)
    return tuple(work.steps)


def add_limits(work: Derivation, size: MetricSize, tolerance: ToleranceClass) -> None:
    """Add the steps to every limit of a thread; see `limits_derivation`."""
    cells = tolerances(size, tolerance)
    if tolerance.member == "external":
        _external(work, size, cells)
    else:
        _internal(work, size, cells)


def stress_area_steps(work: Derivation, size: MetricSize, answers: str | None = "stress_area.nominal") -> None:
    """Add the steps to the nominal stress area As in mm2, three significant digits, from unrounded diameters.

    ISO 898-1:2013, clause 9.1.6.1.
    """
    basic, stress = _basic(), rules("ISO 898-1").clause("clause 9.1.6.1")
    _size(work, size, "d")
    _height(work)
    work.step("d2", "d - 3/4 * H", "mm", basic, note="unrounded: rounded diameters print M3.5 and M24 wrong")
    work.step("d1", "d - 5/4 * H", "mm", basic)
    work.step("d3", "d1 - H/6", "mm", stress)
    three_digits = Rounding("significant, half even", "3")
    work.step("As", "pi/4 * ((d2 + d3)/2)**2", "mm2", stress, three_digits, answers)


def _basic() -> Basis:
    return other_source("ISO 724", "Table 1")


def _height(work: Derivation) -> None:
    work.step("H", "sqrt(3)/2 * P", "mm", other_source("ISO 68-1", "basic profile"))


def _size(work: Derivation, size: MetricSize, symbol: str) -> None:
    work.given(symbol, size.d, "mm", size_basis(size))
    work.given("P", size.pitch, "mm", size_basis(size))


def add_basic_diameters(work: Derivation, size: MetricSize, d: str) -> None:
    """Add the basic diameters `d`, `d2`, `d1` (or D, D2, D1), rounded as printed before anything is added to them."""
    _size(work, size, d)
    _height(work)
    pitch, minor = (f"{d}2", f"{d}1")
    work.step(pitch, f"{d} - 3/4 * H", "mm", _basic(), _TO_UM, "limits.pitch_diameter.nominal")
    work.step(minor, f"{d} - 5/4 * H", "mm", _basic(), _TO_UM, "limits.minor_diameter.nominal")


def _external(work: Derivation, size: MetricSize, cells: Tolerances) -> None:
    add_basic_diameters(work, size, "d")
    crest = "es" if cells.crest_deviation == cells.deviation else "es_d"
    work.given("es", cells.deviation, "um", cells.deviation_basis)
    work.given(crest, cells.crest_deviation, "um", cells.crest_deviation_basis)
    work.given("Td2", cells.pitch, "um", cells.pitch_tolerance_basis)
    work.given("Td", cells.crest, "um", cells.crest_tolerance_basis)
    work.step("d_max", f"d + {crest}", "mm", cells.crest_basis, _TO_UM, "limits.major_diameter.max")
    work.step("d_min", "d_max - Td", "mm", cells.crest_basis, _TO_UM, "limits.major_diameter.min")
    work.step("d2_max", "d2 + es", "mm", cells.pitch_basis, _TO_UM, "limits.pitch_diameter.max")
    work.step("d2_min", "d2_max - Td2", "mm", cells.pitch_basis, _TO_UM, "limits.pitch_diameter.min")
    work.step("d1_max", "d1 + es", "mm", cells.pitch_basis, _TO_UM, "limits.minor_diameter.max")
    _root(work, rules("ISO 965-1").clause("clause 11"))


def _root(work: Derivation, clause_11: Basis) -> None:
    """The rounded root, and the minor diameter that stresses are computed with."""
    work.step("R", "0.125 * P", "mm", clause_11, note="H/6.93")
    work.step("R_min", "R", "mm", clause_11, _TO_UM, "limits.root_radius.min")
    work.step("d3_min", "d2_min - H + P/4", "mm", clause_11, _TO_UM, "limits.root_diameter.min")
    work.step("cos_a", "1 - Td2/(4*R)", "1", clause_11)
    turned = "cos(60 deg - a) = cos_a/2 + sqrt(3)/2 * sin_a, with roots in place of angles"
    work.step("cos_b", "cos_a/2 + sqrt(3)/2 * sqrt(1 - cos_a**2)", "1", clause_11, note=turned)
    work.step("d3_root", "d2_max - H/2 - 2*R*(1 - cos_b)", "mm", clause_11, _TO_UM)
    go = "the root must clear the GO gauge at d1_max"
    work.step("d3_max", "min(d3_root, d1_max)", "mm", clause_11, _TO_UM, "limits.root_diameter.max", go)
    work.step("deviation_d3", "abs(es) + H/6", "mm", clause_11, _TO_UM)
    work.step("d3_stress", "d1 - deviation_d3", "mm", clause_11, _TO_UM, "reference.stress_minor_diameter.max")


def _internal(work: Derivation, size: MetricSize, cells: Tolerances) -> None:
    add_basic_diameters(work, size, "D")
    crest = "EI" if cells.crest_deviation == cells.deviation else "EI_D1"
    work.given("EI", cells.deviation, "um", cells.deviation_basis)
    work.given(crest, cells.crest_deviation, "um", cells.crest_deviation_basis)
    work.given("TD2", cells.pitch, "um", cells.pitch_tolerance_basis)
    work.given("TD1", cells.crest, "um", cells.crest_tolerance_basis)
    work.step("D_min", "D + EI", "mm", cells.pitch_basis, _TO_UM, "limits.major_diameter.min")
    work.step("D2_min", "D2 + EI", "mm", cells.pitch_basis, _TO_UM, "limits.pitch_diameter.min")
    work.step("D2_max", "D2_min + TD2", "mm", cells.pitch_basis, _TO_UM, "limits.pitch_diameter.max")
    work.step("D1_min", f"D1 + {crest}", "mm", cells.crest_basis, _TO_UM, "limits.minor_diameter.min")
    work.step("D1_max", "D1_min + TD1", "mm", cells.crest_basis, _TO_UM, "limits.minor_diameter.max")
    work.step("D_max", "D2_max + 11/12 * H", "mm", reference_basis(), _TO_UM, "reference.major_diameter.max")
