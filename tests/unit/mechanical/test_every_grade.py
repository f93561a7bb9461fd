"""Every class and grade that is held answers where its tables say so; each figure of an answer stands by itself."""

from __future__ import annotations

import pytest

from boltwright_server.mechanical import Grade, MechanicalMinimums, grades, mechanical_minimums
from boltwright_server.quantities import Bounds, NotStandardised, Refusal
from boltwright_server.quantities.units import CODES
from boltwright_server.threads import SYSTEMS

SIZES = [size for system in SYSTEMS for size in system.sizes()]


def answers(grade: Grade) -> list[MechanicalMinimums]:
    found = []
    for size in SIZES:
        try:
            found.append(mechanical_minimums(size, grade))
        except Refusal:
            continue
    return found


def figures(one: MechanicalMinimums) -> list[Bounds]:
    inner = [bounds for by_edition in one.disputed.values() for bounds in by_edition.values()]
    elements = [bounds for steel in one.steels for bounds in steel.elements.values()]
    return [one.stress_area, *one.properties.values(), *one.loads.values(), *inner, *elements]


@pytest.mark.parametrize("grade", grades(), ids=[f"{one.name}-{one.member}" for one in grades()])
def test_a_grade_answers_for_some_size(grade: Grade) -> None:
    found = answers(grade)
    assert found, grade
    for one in found:
        assert (one.property_class, one.member) == (grade.name, grade.member)
        for bounds in figures(one):
            assert bounds.unit in CODES
            assert bounds.basis.standard
            assert bounds.basis.clause
        assert all(setting.unit in CODES for test in one.tests for setting in test.settings.values())
        assert grade.member == "external" or "proof_load" in one.loads


@pytest.mark.parametrize("grade", grades(), ids=[f"{one.name}-{one.member}" for one in grades()])
def test_loads_grow_with_the_stress_area_within_one_stress(grade: Grade) -> None:
    """A load is stress times area: between two sizes with equal stress the order of areas is that of loads."""
    by_stress: dict[object, list[tuple[object, object]]] = {}
    for one in answers(grade):
        for load, stress in (("tensile_load", "tensile_strength"), ("proof_load", "proof_stress")):
            if load in one.loads and stress in one.properties and not grade.structural:
                key = (load, one.properties[stress].min, one.stress_area.unit)
                by_stress.setdefault(key, []).append((one.stress_area.nominal, one.loads[load].min))
    for pairs in by_stress.values():
        ordered = sorted(pairs)  # type: ignore[type-var]
        loads = [load for _, load in ordered]
        assert loads == sorted(loads)  # type: ignore[type-var]


def test_outside_its_tables_a_grade_gives_nothing() -> None:
    beyond = max((size for size in SIZES if size.system == "ISO metric"), key=lambda size: size.d)
    for name in ("8.8", "8", "A2-70"):
        with pytest.raises(NotStandardised):
            mechanical_minimums(beyond, name)
