"""The limits of a Unified thread step by step.

ASME B1.1-2003, formulas for tolerances, allowance and limits of size; ASME B1.30-2002 for the decimals of each step.
Every limit starts from the rounded limit before it.
"""

from __future__ import annotations

from ..quantities import Basis
from ..quantities.derivation import Derivation, Rounding, Step
from ..standards import rules
from .unified import UnifiedClass, UnifiedSize, check_class
from .unified_limits import HOT_ROLLED, has_three_places
from .unified_tolerances import QUARTER, UnifiedTolerances, tolerances

_STANDARD = "ASME B1.1"
_EIGHT, _SIX = Rounding("half even", "0.00000001"), Rounding("half even", "0.000001")
_FOUR, _THREE = Rounding("half even", "0.0001"), Rounding("half even", "0.001")
_AREA = Rounding("significant, half even", "4")


def limits_derivation(size: UnifiedSize, wanted: UnifiedClass) -> tuple[Step, ...]:
    """Return the steps to every limit of a thread, and to the stress areas of a bolt; inch and in2.

    ASME B1.1-2003, formulas for limits of size.

    Raises:
        NotStandardised, Contradiction: as `limits`.
    """
    work = Derivation()
    add_limits(work, size, wanted)
    if wanted.member == "external":
        _stress_areas(work, size)
    return tuple(work.steps)


def add_limits(work: Derivation, size: UnifiedSize, wanted: UnifiedClass) -> None:
    """Add the steps to every limit of a thread.

    Raises:
        NotStandardised, Contradiction: as `limits`.
    """
    check_class(size, wanted)
    cells = tolerances(size, wanted)
    _given(work, size, wanted)
    _pitch_tolerance(work, size, wanted, cells)
    if wanted.member == "external":
        _external(work, size, wanted, cells.basis)
    else:
        _internal(work, size, wanted, cells.basis)


def _given(work: Derivation, size: UnifiedSize, wanted: UnifiedClass) -> None:
    facts = rules(_STANDARD)
    row = facts.table("table_1").find(size.d, size.threads_per_inch)
    listed = facts.clause("designation", "tabulated") if row is None else row.basis("series")
    work.given("D", size.d, "in", listed)
    work.given("n", size.threads_per_inch, "1", listed)
    factors = facts.table("tolerance_factors").find(wanted.designation)
    assert factors is not None
    for symbol, column in (("c_pitch", "pitch_diameter"), ("c_es", "allowance"), ("c_major", "major_diameter")):
        value = factors.get(column)
        if value is not None:
            work.given(symbol, value, "1", factors.basis(column))


def _pitch_tolerance(work: Derivation, size: UnifiedSize, wanted: UnifiedClass, cells: UnifiedTolerances) -> None:
    """Td2 of class 2A from its three terms, and the tolerance of the class."""
    basis, found = cells.basis, cells.engagement
    work.step("P", "1/n", "in", basis, _EIGHT)
    if found.stated:
        work.given("LE", found.LE, "in", found.basis)
    elif found.in_diameters:
        work.step("LE", "D", "in", found.basis)
    else:
        work.step("LE", "9*P", "in", found.basis)
    work.step("t_D", "0.0015 * cbrt(D)", "in", basis, _SIX)
    work.step("t_LE", "0.0015 * sqrt(LE)", "in", basis, _SIX)
    work.step("t_P", "0.015 * cbrt(P**2)", "in", basis, _SIX)
    work.step("Td2_2A", "t_D + t_LE + t_P", "in", basis, _SIX)
    symbol = "Td2" if wanted.member == "external" else "TD2"
    work.step(symbol, "c_pitch * Td2_2A", "in", basis, _SIX, "tolerances.pitch_diameter.max")
    work.step("h2", "0.64951905 * P", "in", basis, _SIX)
    work.step("h1", "1.08253175 * P", "in", basis, _SIX)


def _external(work: Derivation, size: UnifiedSize, wanted: UnifiedClass, basis: Basis) -> None:
    chain = "from the rounded limit, not from the unrounded one"
    work.step("es", "c_es * Td2_2A", "in", basis, _SIX, "tolerances.allowance.max")
    work.step("Td", "c_major * cbrt(P**2)", "in", basis, _SIX, "tolerances.major_diameter.max")
    work.step("es_4", "es", "in", basis, _FOUR, "reference.allowance.max")
    work.step("d2", "D - h2", "in", basis, _FOUR, "limits.pitch_diameter.nominal")
    work.step("d_max", "D - es", "in", basis, _FOUR, "limits.major_diameter.max")
    work.step("d_min", "d_max - Td", "in", basis, _FOUR, "limits.major_diameter.min", chain)
    work.step("d2_max", "d_max - h2", "in", basis, _FOUR, "limits.pitch_diameter.max", chain)
    work.step("d2_min", "d2_max - Td2", "in", basis, _FOUR, "limits.pitch_diameter.min", chain)
    work.step("d1_max", "d_max - h1", "in", basis, _FOUR, "limits.minor_diameter.max", "flat root, for reference")
    work.step("h3", "1.19078493 * P", "in", basis, _SIX)
    work.step("d3_max", "d_max - h3", "in", basis, _FOUR, "limits.root_diameter.max", "UNR root, for reference")
    if size.rounded_root:
        work.step("R_min", "0.10825318 * P", "in", basis, _FOUR, "limits.root_radius.min", "recalled")
    if wanted.grade == "2" and size.series in HOT_ROLLED:
        place = "reference.major_diameter_unfinished_hot_rolled"
        work.step("Td_hot", "0.090 * cbrt(P**2)", "in", basis, _SIX)
        work.step("d_min_hot", "d_max - Td_hot", "in", basis, _FOUR, f"{place}.min")


def _internal(work: Derivation, size: UnifiedSize, wanted: UnifiedClass, basis: Basis) -> None:
    _minor_tolerance(work, size, wanted, basis)
    work.step("D2_min", "D - h2", "in", basis, _FOUR, "limits.pitch_diameter.min")
    chain = "from the rounded limit, not from the unrounded one"
    work.step("D2_max", "D2_min + TD2", "in", basis, _FOUR, "limits.pitch_diameter.max", chain)
    places = _THREE if has_three_places(size) else _FOUR
    work.step("D1", "D - h1", "in", basis, _FOUR, "limits.minor_diameter.nominal")
    work.step("D1_min", "D - h1", "in", basis, places, "limits.minor_diameter.min")
    unrounded = "from the minor diameter before it is rounded"
    last = _FOUR if wanted.grade == "3" else places
    work.step("D1_max", "D - h1 + TD1", "in", basis, last, "limits.minor_diameter.max", unrounded)


def _minor_tolerance(work: Derivation, size: UnifiedSize, wanted: UnifiedClass, basis: Basis) -> None:
    answers = "tolerances.minor_diameter.max"
    large = wanted.grade != "3" and size.d >= QUARTER
    if wanted.grade != "3":
        work.step("a", "0.25 * P", "in", basis, _SIX)
        work.step("b", "0.40 * P**2", "in", basis, _SIX)
    if large:
        work.step("TD1", "a - b", "in", basis, _SIX, answers)
        return
    work.step("u", "0.05 * cbrt(P**2)", "in", basis, _SIX)
    work.step("v", "0.03 * P/D", "in", basis, _SIX)
    work.step("cap", "0.394 * P", "in", basis, _SIX)
    if wanted.grade != "3":
        floor = "a - b"
    elif size.threads_per_inch >= 13:
        work.step("a", "0.23 * P", "in", basis, _SIX)
        work.step("b", "1.5 * P**2", "in", basis, _SIX)
        floor = "a - b"
    else:
        work.step("a", "0.120 * P", "in", basis, _SIX)
        floor = "a"
    work.step("TD1", f"max(min(u + v - 0.002, cap), {floor})", "in", basis, _SIX, answers)


def _stress_areas(work: Derivation, size: UnifiedSize) -> None:
    facts = rules(_STANDARD)
    formula = facts.clause("formula for the tensile stress area")
    row = facts.table("stress_area").find(size.d, size.threads_per_inch)
    nominal = "stress_areas.nominal.max"
    work.step("As_formula", "pi/4 * (D - 0.97427858/n)**2", "in2", formula, _AREA, None if row else nominal)
    if row is not None:
        work.given("As_printed", row.number("As"), "in2", row.basis("As"))
        work.step("As", "As_printed", "in2", row.basis("As"), answers=nominal, note="the printed figure wins")
    high = facts.clause("formula for the tensile stress area of high strength")
    work.step("As_high", "pi * (d2_min/2 - 0.16238/n)**2", "in2", high, _AREA, "stress_areas.high_strength.max")
