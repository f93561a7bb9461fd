"""Every diameter of every gauge follows from the steps that the service shows."""

from __future__ import annotations

from decimal import Decimal

import pytest
from exact_steps import recompute
from steps_in_answers import steps_in_answers

from boltwright_server.gauges import GaugeSet, gauge_derivation, gauge_sizes
from boltwright_server.quantities import Refusal
from boltwright_server.threads import ToleranceClass, sizes, unified

#: Each member, a position away from the basic profile, two symbols, and a galvanized thread.
CLASSES = ("6g", "6H", "4h", "8g", "5g6g", "7G", "6az", "6AX")


def answers(found: GaugeSet) -> dict[str, Decimal]:
    return {
        f"gauges.{gauge.id}.dimensions.{id}.{end}": value
        for gauge in found.gauges
        for id, one in gauge.dimensions.items()
        for end in ("min", "max", "wear_limit")
        if (value := getattr(one, end)) is not None
    }


@pytest.mark.parametrize(("standard", "least"), [("ISO 1502", 600), ("ASME B1.16M", 130)])
def test_every_gauge_of_every_size(standard: str, least: int) -> None:
    """A third of the classes at each size, in turn."""
    sets = 0
    for at, size in enumerate(sizes()):
        for name in CLASSES[at % 3 :: 3]:
            tolerance = ToleranceClass.parse(name)
            try:
                found = gauge_sizes(size, tolerance, standard)
            except Refusal:
                continue
            steps = gauge_derivation(size, tolerance, standard)
            assert recompute(steps_in_answers(steps)) == []
            derived = {step.answers: step.rounded for step in steps if step.answers is not None}
            assert derived == answers(found), f"{size.designation}-{name}"
            sets += 1
    assert sets > least


def test_every_gage_of_every_unified_size() -> None:
    sets = 0
    for size in unified.sizes():
        for wanted in unified.classes(size):
            try:
                found = gauge_sizes(size, wanted)
            except Refusal:
                continue
            steps = gauge_derivation(size, wanted)
            assert recompute(steps_in_answers(steps)) == []
            derived = {step.answers: step.rounded for step in steps if step.answers is not None}
            assert derived == answers(found), f"{size.designation}-{wanted.designation}"
            sets += 1
    assert sets > 1_500
