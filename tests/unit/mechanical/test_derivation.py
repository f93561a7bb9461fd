"""Stress areas and loads follow from the steps that the service shows, for every thread and class."""

from __future__ import annotations

from decimal import Decimal

from exact_steps import recompute
from steps_in_answers import steps_in_answers

from boltwright_server.designations import parse_thread
from boltwright_server.mechanical import MechanicalMinimums, mechanical_minimums
from boltwright_server.mechanical.derivation import minimums_derivation
from boltwright_server.mechanical.names import grades
from boltwright_server.quantities import Refusal
from boltwright_server.threads import SYSTEMS, find_size


def answers(found: MechanicalMinimums) -> dict[str, Decimal | None]:
    loads = {f"loads.{id}.min": load.min for id, load in found.loads.items() if id != "breaking_torque"}
    return {"stress_area.nominal": found.stress_area.nominal, **loads}


def test_every_load_of_every_class_has_steps_that_give_it() -> None:
    """A third of the classes at each size, in turn."""
    seen = 0
    for at, size in enumerate(size for system in SYSTEMS for size in system.sizes()):
        for grade in tuple(grades())[at % 3 :: 3]:
            try:
                found = mechanical_minimums(size, grade)
            except Refusal:
                continue
            steps = minimums_derivation(size, found)
            assert recompute(steps_in_answers(steps)) == []
            derived = {step.answers: step.rounded for step in steps if step.answers is not None}
            assert derived == answers(found), f"{size.designation} {grade.name}"
            seen += 1
    assert seen > 3_500


def test_a_printed_load_stands_beside_its_product() -> None:
    """ISO 898-1:2013, Table 4: M16 8.8 is printed 125 000 N; 157 mm2 x 800 MPa gives 126 000 N."""
    size = find_size(Decimal(16))
    steps = {step.symbol: step for step in minimums_derivation(size, mechanical_minimums(size, "8.8"))}
    assert steps["Fm_min"].rounded == 125_000
    assert steps["Fm_min_product"].rounded == 126_000
    assert steps["Fm_min_product"].answers is None


def test_an_inch_load_shows_the_rounding_of_its_standard() -> None:
    """SAE J429 grade 4: 0.1419 in2 x 115 ksi = 16 318.5 lbf, to 100 lbf above 10 000; ASTM A449: the product."""
    size = parse_thread("1/2-13").size
    steps = {step.symbol: step for step in minimums_derivation(size, mechanical_minimums(size, "SAE J429 4"))}
    assert (steps["Fm_min"].unrounded, steps["Fm_min"].rounded) == ("16318.5", 16300)
    assert steps["Fm_min"].rounding.to == "100"
    plain = {step.symbol: step for step in minimums_derivation(size, mechanical_minimums(size, "ASTM A449"))}
    assert plain["Fm_min"].rounded == 17028
