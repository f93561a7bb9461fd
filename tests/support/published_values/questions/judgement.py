"""Questions about verdicts, asked of the judgement itself: a purchaser's limit, one reading, one rule."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

import numpy as np

from boltwright_server.conformance import Column, Judgement, Request, Requirement, judge
from boltwright_server.conformance.rules import DecisionRule

from ..check import Cells, Check
from ..comparison import Answer, Rounded

#: Any designation will do: the limit asked about is the purchaser's.
_CARRIER = "ISO 4014 - M10x60 - 8.8"
_PROBE = "probe"


def decision_rule(row: Cells, check: Check) -> Answer:
    """Verdict and acceptance limits of one reading with its uncertainty."""
    rule = "simple" if row["rule"] == "simple" else "guarded"
    edition = None if row["edition"] == "-" else row["edition"]
    found = judged(
        Decimal(row["reading"]),
        row["unit"],
        DecisionRule(rule, edition),
        {side: _side(row[name]) for side, name in (("min", "lower"), ("max", "upper"))},
        Decimal(row["u"]) * 2,
    ).characteristics[_PROBE]
    regions = found.plan.regions
    assert regions is not None
    assert regions.attainable or regions.conforming_low is regions.conforming_high is None
    edges = (regions.conforming_low, regions.conforming_high)
    # The two-sided factor is a solution of an equation, printed rounded; all other edges are exact.
    shown = [edge and (Rounded(edge.at) if row["rule"] == "two_limits_95" else edge.at) for edge in edges]
    return {"verdict": found.verdict, "acceptance_min": shown[0], "acceptance_max": shown[1]}


def _side(cell: str) -> Decimal | None:
    return None if cell == "-" else Decimal(cell)


def judged(
    reading: Decimal,
    unit: str,
    rule: DecisionRule,
    sides: Mapping[str, Decimal | None],
    expanded_uncertainty: Decimal | None = None,
) -> Judgement:
    """Judge one reading against limits that the request states."""
    column = Column(_PROBE, np.array([float(reading)]), unit, expanded_uncertainty)
    requirement = Requirement(_PROBE, {**{k: v for k, v in sides.items() if v is not None}, "unit": unit})
    return judge(Request(_CARRIER, (column,), rule, requirements=(requirement,)))


def verdict_on(reading: Decimal, unit: str, rule: DecisionRule, **sides: Decimal) -> str:
    """Return the verdict of one reading against `min` and `max`."""
    return judged(reading, unit, rule, sides).characteristics[_PROBE].verdict


QUESTIONS = {"decision_rule": decision_rule}
