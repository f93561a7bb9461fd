"""The steps that the service shows give the limits that it answers, for every thread of ISO 261 in every class.

The expressions are evaluated by tests/support/exact_steps.py with rationals and intervals, from the JSON that leaves
the service; no function of the engine takes part.
"""

from __future__ import annotations

import copy
import re
from decimal import Decimal
from itertools import islice
from typing import Any

import pytest
from exact_steps import recompute
from steps_in_answers import steps_in_answers

from boltwright_server.quantities.derivation import Derivation, Step
from boltwright_server.threads import MetricSize, ThreadLimits, ToleranceClass, find_size, limits, sizes
from boltwright_server.threads.iso_metric_derivation import limits_derivation, stress_area_steps
from boltwright_server.threads.iso_metric_tolerances import classes
from boltwright_server.threads.stress_area import nominal_stress_area

SYMBOL = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
#: Members of an answer that come straight from a table, not by a step.
TABULATED = ("reference.stress_minor_diameter.min",)


def every_number(found: ThreadLimits) -> dict[str, Decimal]:
    return {
        f"{member}.{id}.{end}": value
        for member in ("limits", "reference")
        for id, bounds in getattr(found, member).items()
        for end in ("min", "max", "nominal")
        if (value := getattr(bounds, end)) is not None
    }


def test_every_step_of_every_seventh_thread_follows_and_gives_the_limit() -> None:
    """Sizes and classes in one row, every seventh taken: each size and each class has its turn."""
    threads, numbers, wrong = 0, 0, []
    for size, tolerance in islice(((of, one) for of in sizes() for one in classes(of)), 0, None, 7):
        steps = limits_derivation(size, tolerance)
        wrong += [f"{size.designation}-{tolerance.designation}: {one}" for one in recompute(steps_in_answers(steps))]
        wrong += unlike(size, tolerance, steps)
        threads, numbers = threads + 1, numbers + len(steps)
    assert not wrong, f"{len(wrong)}:\n" + "\n".join(wrong[:20])
    assert threads > 1_800
    assert numbers > 21_000


def unlike(size: MetricSize, tolerance: ToleranceClass, steps: tuple[Step, ...]) -> list[str]:
    answered = every_number(limits(size, tolerance))
    given = {step.answers: step.rounded for step in steps if step.answers is not None}
    unexplained = {path for path in set(answered) - set(given) if path not in TABULATED}
    unexplained -= {"limits.major_diameter.nominal"}  # the nominal diameter itself
    name = f"{size.designation}-{tolerance.designation}"
    return [f"{name}: {path} has no step" for path in sorted(unexplained)] + [
        f"{name}: {path} is {answered.get(path)}, derived {value}"
        for path, value in given.items()
        if answered.get(path) != value
    ]


def test_stress_areas_of_every_size() -> None:
    for size in sizes():
        work = Derivation()
        stress_area_steps(work, size)
        assert recompute(steps_in_answers(work.steps)) == []
        assert work.steps[-1].rounded == nominal_stress_area(size)


def test_every_symbol_is_an_input_with_a_basis_or_an_earlier_step() -> None:
    steps = steps_in_answers(limits_derivation(find_size(Decimal(10)), ToleranceClass.parse("5g6g")))
    for step in steps:
        symbols = set(SYMBOL.findall(step["expression"])) - {"sqrt", "abs", "min", "max", "pi"}
        assert symbols == set(step["inputs"])
        for one in step["inputs"].values():
            assert ("basis" in one) != ("step" in one)
            assert one.get("step", 0) < step["step"]


def shown() -> list[dict[str, Any]]:
    return copy.deepcopy(steps_in_answers(limits_derivation(find_size(Decimal(10)), ToleranceClass.parse("6g"))))


@pytest.mark.parametrize(
    ("symbol", "member", "value"),
    [
        ("d2_max", "rounded", Decimal("8.995")),
        ("d2_max", "expression", "d2 - es"),
        ("H", "unrounded", "1.29903810567665797014558475612..."),
        ("d2", "rounding", {"rule": "half up", "to": "0.01"}),
        ("d3_root", "expression", "d2_max - H/2 - 2*R"),
    ],
)
def test_a_wrong_step_is_noticed(symbol: str, member: str, value: object) -> None:
    steps = shown()
    next(step for step in steps if step["symbol"] == symbol)[member] = value
    assert recompute(steps)
