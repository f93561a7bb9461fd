"""The steps that the service shows give the limits that it answers, for every Unified size in every class.

The expressions are evaluated by tests/support/exact_steps.py with rationals and intervals, from the JSON that leaves
the service; no function of the engine takes part.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from exact_steps import recompute
from steps_in_answers import steps_in_answers

from boltwright_server.designations import parse_thread
from boltwright_server.quantities.derivation import Step
from boltwright_server.threads import ThreadLimits, UnifiedClass, UnifiedSize, limits, limits_derivation
from boltwright_server.threads.unified import classes, sizes

#: Members that repeat another one, or that are the basic size itself.
REPEATED = (
    "limits.major_diameter.nominal",
    "limits.major_diameter.min",  # of an internal thread: the basic size
    "limits.pitch_diameter.nominal",  # of an internal thread: its minimum
    "reference.allowance.min",
    "reference.allowance.nominal",
    "reference.major_diameter_unfinished_hot_rolled.max",
    "reference.major_diameter_after_coating.max",
    "reference.pitch_diameter_after_coating.max",
)


def every_number(found: ThreadLimits) -> dict[str, Decimal]:
    stated = {
        f"{member}.{id}.{end}": value
        for member in ("limits", "reference")
        for id, bounds in getattr(found, member).items()
        for end in ("min", "max", "nominal")
        if (value := getattr(bounds, end)) is not None
    }
    for member in ("tolerances", "stress_areas"):
        for id, bounds in getattr(found, member).items():
            stated[f"{member}.{id}.max"] = bounds.max
    return stated


def every_thread() -> list[tuple[UnifiedSize, UnifiedClass]]:
    plain = [(size, wanted) for size in sizes() for wanted in classes(size)]
    others = ("1/4-20 UNRC-2A", "1/2-24 UNS-2A-LE 1.5", "1/2-24 UNS-2B-LE 1.5", "19/64-36 UNS-2B", "0.2400-40 UNS-3A")
    for text in others:
        thread = parse_thread(text)
        assert isinstance(thread.size, UnifiedSize)
        assert isinstance(thread.classes[0], UnifiedClass)
        plain.append((thread.size, thread.classes[0]))
    return plain


def test_every_step_of_every_thread_follows_and_gives_the_limit() -> None:
    numbers, wrong = 0, []
    threads = every_thread()
    for size, wanted in threads:
        steps = limits_derivation(size, wanted)
        wrong += [f"{size.designation}-{wanted.designation}: {one}" for one in recompute(steps_in_answers(steps))]
        wrong += unlike(size, wanted, steps)
        numbers += len(steps)
    assert not wrong, f"{len(wrong)}:\n" + "\n".join(wrong[:20])
    assert len(threads) > 1900
    assert numbers > 35_000


def unlike(size: UnifiedSize, wanted: UnifiedClass, steps: tuple[Step, ...]) -> list[str]:
    answered = every_number(limits(size, wanted))
    given = {step.answers: step.rounded for step in steps if step.answers is not None}
    name = f"{size.designation}-{wanted.designation}"
    unexplained = set(answered) - set(given) - set(REPEATED)
    return [f"{name}: {path} has no step" for path in sorted(unexplained)] + [
        f"{name}: {path} is {answered.get(path)}, derived {value}"
        for path, value in given.items()
        if answered.get(path) != value
    ]


@pytest.mark.parametrize(
    ("symbol", "member", "value"),
    [
        ("d2_min", "rounded", Decimal("0.2126")),
        ("d_min", "expression", "d_max + Td"),
        ("t_P", "expression", "0.015 * sqrt(P**2)"),
        ("t_D", "unrounded", "0.0009446..."),
        ("d_max", "rounding", {"rule": "half even", "to": "0.001"}),
    ],
)
def test_a_wrong_step_is_noticed(symbol: str, member: str, value: object) -> None:
    thread = parse_thread("1/4-20 UNC-2A")
    steps = [dict(step) for step in steps_in_answers(limits_derivation(thread.size, thread.classes[0]))]
    assert recompute(steps) == []
    next(step for step in steps if step["symbol"] == symbol)[member] = value
    assert recompute(steps)


def test_unr_and_left_hand_change_no_step_but_the_radius() -> None:
    size = parse_thread("1/4-20 UNC").size
    assert isinstance(size, UnifiedSize)
    wanted = UnifiedClass("2", "A")
    plain = {step.symbol: step.rounded for step in limits_derivation(size, wanted)}
    unr = {step.symbol: step.rounded for step in limits_derivation(replace(size, rounded_root=True), wanted)}
    assert {symbol: value for symbol, value in unr.items() if symbol != "R_min"} == plain
