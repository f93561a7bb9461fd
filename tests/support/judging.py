"""A short way to say a lot and a verdict, for the rules of judgement in tests/judgement."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import numpy as np
from lots import BOLT, bolts

from boltwright_server.conformance import Column, Judgement, Request, judge
from boltwright_server.conformance.rules import SIMPLE, DecisionRule
from boltwright_server.specification.characteristic import traits

GUARDED = DecisionRule("guarded", "2017")
GUARDED_2013 = DecisionRule("guarded", "2013")


def lot(rule: DecisionRule = SIMPLE, uncertainty: str | None = None, **columns: Any) -> Judgement:
    """Judge five conforming bolts ISO 4014 - M10x60 - 8.8 with some columns replaced; None leaves a column out."""
    return _judged(bolts(**columns), rule, uncertainty)


def only(
    rule: DecisionRule = SIMPLE, uncertainty: str | None = None, designation: str = BOLT, **columns: Any
) -> Judgement:
    """Judge the given columns and nothing else."""
    return _judged(columns, rule, uncertainty, designation)


def _judged(
    readings: dict[str, Any], rule: DecisionRule, uncertainty: str | None, designation: str = BOLT
) -> Judgement:
    fracture_rule = readings.pop("fracture_rule", "standard")
    columns = tuple(_column(id, values, uncertainty) for id, values in readings.items())
    return judge(Request(designation, columns, rule, fracture_rule))


def _column(id: str, values: list[Any], uncertainty: str | None) -> Column:
    if traits()[id].kind != "measured":
        return Column(id, values)
    expanded = Decimal(uncertainty or 0)
    return Column(id, np.array([np.nan if value is None else value for value in values]), None, expanded)


def verdict(found: Judgement, id: str) -> str:
    """Return the verdict on one characteristic."""
    return found.characteristics[id].verdict
