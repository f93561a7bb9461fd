"""Stress area and loads step by step.

ISO 898-1:2013, clause 9.1.6.1 (stress area); load = stress area times stress, rounded as each standard does; a load
that the standard prints decides over the product. Areas in mm2, stresses in MPa, loads in N; inch grades in in2, ksi
and lbf.
"""

from __future__ import annotations

from decimal import Decimal

from ..quantities import Bounds
from ..quantities.derivation import UNROUNDED, Derivation, Rounding, Step
from ..standards import rules
from ..threads import MetricSize, ThreadSize
from ..threads.iso_metric_derivation import stress_area_steps
from .answer import MechanicalMinimums
from .stress_grade_loads import load_rounding

#: load -> (its symbol, the property that it is computed from, the symbol of that)
_LOADS = {
    "tensile_load": ("Fm_min", "tensile_strength", "Rm"),
    "proof_load": ("Fp", "proof_stress", "Sp"),
    "yield_load": ("Fy_min", "yield_strength", "Rp"),
    "proof_load_overtapped": ("Fp_overtapped", "proof_stress_overtapped", "Sp_overtapped"),
}
#: lbf in one ksi in2
_PER_KSI = 1000
_THREE_DIGITS = Rounding("significant, half even", "3")


def minimums_derivation(size: ThreadSize, found: MechanicalMinimums) -> tuple[Step, ...]:
    """Return the steps to stress area and loads of one class; what a table prints stands beside the product.

    ISO 898-1:2013, clause 9.1.6.1 and Tables 4 to 7; ISO 898-2:2012, Tables 4 and 5; the load tables of inch grades.
    """
    work = Derivation()
    if isinstance(size, MetricSize):
        _area(work, size, found.stress_area)
    else:
        _area_as_held(work, found.stress_area)
    for id in _LOADS:
        if id in found.loads:
            _load(work, id, found)
    return tuple(work.steps)


def _area(work: Derivation, size: MetricSize, area: Bounds) -> None:
    printed = area.basis.method == "tabulated"
    stress_area_steps(work, size, None if printed else "stress_area.nominal")
    if printed and area.nominal is not None:
        work.given("As_printed", area.nominal, "mm2", area.basis)
        note = "the printed area decides"
        work.step("As", "As_printed", "mm2", area.basis, answers="stress_area.nominal", note=note)


def _area_as_held(work: Derivation, area: Bounds) -> None:
    """The areas of Unified threads stand in tables; where none was seen they are computed by their own standard."""
    assert area.nominal is not None
    work.given("As_held", area.nominal, area.unit, area.basis)
    work.step("As", "As_held", area.unit, area.basis, answers="stress_area.nominal")


def _rounding(found: MechanicalMinimums, product: Decimal) -> Rounding:
    if found.standard.startswith("ISO 898"):
        return _THREE_DIGITS
    return load_rounding(rules(found.standard, found.edition), product)


def _load(work: Derivation, id: str, found: MechanicalMinimums) -> None:
    symbol, property_id, stress_symbol = _LOADS[id]
    load, stress = found.loads[id], found.properties.get(property_id)
    answers = f"loads.{id}.min"
    product, rounding = None, UNROUNDED
    if stress is not None and stress.min is not None:
        scale = _PER_KSI if stress.unit == "ksi" else 1
        rounding = _rounding(found, stress.min * (found.stress_area.nominal or 0) * scale)
        product = f"As * {stress_symbol}" if scale == 1 else f"{scale} * As * {stress_symbol}"
        work.given(stress_symbol, stress.min, stress.unit, stress.basis)
    if load.basis.method != "tabulated" and product is not None:
        work.step(symbol, product, load.unit, load.basis, rounding, answers)
        return
    if product is not None:
        compared = load.basis.computed("As x stress", note="for comparison")
        work.step(f"{symbol}_product", product, load.unit, compared, rounding)
    if load.min is not None:
        work.given(f"{symbol}_printed", load.min, load.unit, load.basis)
        note = "the printed load decides"
        work.step(symbol, f"{symbol}_printed", load.unit, load.basis, answers=answers, note=note)
