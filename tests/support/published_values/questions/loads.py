"""Questions about printed loads and the product of area and stress that they should be."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

from boltwright_server.designations import parse_thread
from boltwright_server.mechanical import MechanicalMinimums, mechanical_minimums
from boltwright_server.mechanical.iso_898_7 import breaking_torque
from boltwright_server.quantities.rounding import significant
from boltwright_server.standards import standard
from boltwright_server.threads import ToleranceClass, limits, stress_area
from boltwright_server.threads.geometry import PI

from ..check import Cells, Check
from ..comparison import Answer, exception_holds

#: Nut classes are listed with the stress of this style.
_STYLE = {"12": 2}


def mechanical_by_rule(row: Cells, check: Check) -> Answer:
    """A printed load, the product that it should be, and whether the two differ."""
    size, name = parse_thread(row["thread"]).size, row["property_class"]
    found = mechanical_minimums(size, name, style=_STYLE.get(name))
    kind = row["quantity"].removesuffix("_min")
    printed = found.loads[kind].min
    rule = _bolt_load(found, kind) if found.member == "external" else _nut_load(found)
    return {"printed": printed, "rule": rule, "exception": exception_holds(row, printed == rule)}


def _area(found: MechanicalMinimums) -> Decimal:
    assert found.stress_area.nominal is not None
    return found.stress_area.nominal


def _bolt_load(found: MechanicalMinimums, kind: str) -> Decimal:
    """As,nom times Rm min or Sp to three digits, ties to even."""
    stress = found.properties["tensile_strength" if kind == "tensile_load" else "proof_stress"].min
    assert stress is not None
    return significant(_area(found) * stress, 3, ROUND_HALF_EVEN)


def _nut_load(found: MechanicalMinimums) -> Decimal:
    """As times the stress under proof load: to 10 N below 10 kN, to 100 N below 1 MN, to 1 kN above."""
    stress = found.properties["proof_stress"].min
    assert stress is not None
    load = _area(found) * stress
    step = 10 if load < 10_000 else 100 if load < 1_000_000 else 1000
    return (load / step).quantize(Decimal(1), ROUND_HALF_UP) * step


def tensile_stress_area(row: Cells, check: Check) -> Answer:
    """As from unrounded diameters to four digits, and as the property class standard prints it to three."""
    size = parse_thread(row["thread"]).size
    four = significant(stress_area.unrounded_stress_area(size), 4)
    if row["As_3_digits"] == "-":
        return {"As_4_digits": four, "As_3_digits": None}
    by_formula = stress_area.nominal_stress_area(size)
    if size.d > 39:
        return {"As_4_digits": four, "As_3_digits": by_formula}
    held = _area(mechanical_minimums(size, "8" if check.standard == "ISO 898-2" else "8.8"))
    three = held if held == by_formula else f"{held} in the table, {by_formula} by the formula"
    return {"As_4_digits": four, "As_3_digits": three}


def breaking_torque_by_rule(row: Cells, check: Check) -> Answer:
    """A printed breaking torque and X Rm min pi/16 d3 min^3 behind it; the two stay within four percent."""
    size, code = parse_thread(row["thread"]).size, row["property_class"]
    printed = breaking_torque(size, code)
    factors = standard(check.folder).table("table_1").find(code)
    assert printed is not None
    assert printed.min is not None
    assert factors is not None
    d2_min = limits(size, ToleranceClass.parse("6h" if size.d <= Decimal("1.4") else "6g")).limits["pitch_diameter"].min
    d3_min = d2_min - Decimal("0.61603") * size.pitch
    rule = factors.number("X") * factors.number("Rm_min") * PI / 16 * d3_min**3 / 1000
    assert abs(printed.min / rule - 1) <= Decimal("0.04")
    return {"printed": printed.min, "rule": rule.quantize(Decimal("0.0001"), ROUND_HALF_EVEN)}


def _stepped(load: Decimal, *steps: tuple[int, int]) -> Decimal:
    """Round to the step of the last band that the load reaches, ties to even."""
    step = [step for start, step in steps if load >= start][-1]
    return (load / step).quantize(Decimal(1), ROUND_HALF_EVEN) * step


#: How the load tables of a standard round the product of stress area and stress.
_ROUNDING = {
    "SAE J429": lambda load: _stepped(load, (0, 50), (10_000, 100)),
    "ASTM A325": lambda load: _stepped(load, (0, 50)),
    "ASTM F3125": lambda load: _stepped(load, (0, 50)),
    "ASTM A194": lambda load: _stepped(load, (0, 10), (100_000, 100)),
    "ASTM A574": lambda load: significant(load, 3, ROUND_HALF_EVEN),
}


def grade_load_by_rule(row: Cells, check: Check) -> Answer:
    """A printed load of a grade, the product that it should be (`stress` in ksi), and whether the two differ."""
    size = parse_thread(row["thread"]).size
    found = mechanical_minimums(size, row["property_class"], form=row.get("form"))
    load, _, side = row["quantity"].rpartition("_")
    bounds = found.loads[load]
    printed = bounds.max if side == "max" else bounds.min
    rule = _ROUNDING[check.standard](_area(found) * Decimal(row["stress"]) * 1000)
    return {"printed": printed, "rule": rule, "exception": exception_holds(row, printed == rule)}


QUESTIONS = {
    "grade_load_by_rule": grade_load_by_rule,
    "breaking_torque_by_rule": breaking_torque_by_rule,
    "mechanical_by_rule": mechanical_by_rule,
    "tensile_stress_area": tensile_stress_area,
}
