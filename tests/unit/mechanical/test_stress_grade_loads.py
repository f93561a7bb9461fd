"""Without the printed tables the engine's own rounding gives the products that tests/published lists beside them.

SAE J429, ASTM A194, A325, A574, F3125: each rounds in its own way, and the rule serves threads and grades that the
tables leave out.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from engine import clear_caches
from published_values import Check, load_checks

from boltwright_server.designations import parse_thread
from boltwright_server.mechanical import mechanical_minimums, stress_grade_loads

CHECKS = [check for check in load_checks() if check.question == "grade_load_by_rule"]


@pytest.fixture(autouse=True)
def _without_printed_tables(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stress_grade_loads, "_printed_row", lambda facts, grade, size: None)
    clear_caches()
    yield  # type: ignore[misc]
    clear_caches()


@pytest.mark.parametrize("check", CHECKS, ids=[check.id for check in CHECKS])
def test_the_rule_gives_the_product_as_the_standard_rounds_it(check: Check) -> None:
    wrong = []
    for row in check.rows:
        found = mechanical_minimums(parse_thread(row["thread"]).size, row["property_class"], form=row.get("form"))
        load, _, side = row["quantity"].rpartition("_")
        if load == "yield_load":  # a printed column only: its stress is no requirement of the grade table
            continue
        bounds = found.loads[load]
        value = bounds.max if side == "max" else bounds.min
        if value != Decimal(row["rule"]):
            wrong.append((row, value))
    assert not wrong


def test_five_standards_are_compared() -> None:
    assert len(CHECKS) == 5
