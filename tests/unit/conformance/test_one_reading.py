"""A single reading is judged without arrays; what is found of it equals what the arrays find, member by member."""

from __future__ import annotations

import math
from decimal import Decimal
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boltwright_server.conformance.column_plan import ColumnPlan, column_plan
from boltwright_server.conformance.cross_rules import is_single
from boltwright_server.conformance.decide import judge_attribute, judge_readings
from boltwright_server.conformance.readings import Column
from boltwright_server.conformance.rules import DecisionRule
from boltwright_server.conformance.verdicts import block_of, block_of_one
from boltwright_server.specification import Characteristic, specification

DESIGNATIONS = ("ISO 4014 - M10x60 - 8.8", "ISO 4032 - M10 - 8", "ISO 4017 - M8x30 - 12.9", "1/2-13 UNC-2A")
RULES = (
    DecisionRule("simple"),
    DecisionRule("absolute"),
    DecisionRule("guarded", "2017"),
    DecisionRule("guarded", "2013"),
    DecisionRule("rounded"),
    DecisionRule("rounded", ties="greater"),
)
CHARACTERISTICS = [one for text in DESIGNATIONS for one in specification(text).characteristics.values()]
MEASURED = [one for one in CHARACTERISTICS if one.kind == "measured" and one.over_core is None]


@st.composite
def readings_near_limits(draw: st.DrawFn) -> tuple[Characteristic, Column, DecisionRule]:
    characteristic = draw(st.sampled_from(MEASURED))
    unit = draw(st.sampled_from([None, *characteristic.scales]))
    bounds = (
        characteristic.scales.get(unit or "") or characteristic.bounds or next(iter(characteristic.scales.values()))
    )
    ends = [float(end) for end in (bounds.min, bounds.max) if end is not None] or [300.0]
    near = st.sampled_from([step(end) for end in ends for step in (float, up, down)])
    reading = draw(near | st.floats(0, 2 * max(map(abs, ends))) | st.sampled_from([math.nan, 0.0, -0.0]))
    uncertainty = draw(st.sampled_from(["0", "0.01", "0.02", "0.08", "3"]))
    column = Column(characteristic.id, np.array([reading]), unit, Decimal(uncertainty))
    return characteristic, column, draw(st.sampled_from(RULES))


def up(end: float) -> float:
    return math.nextafter(end, math.inf)


def down(end: float) -> float:
    return math.nextafter(end, -math.inf)


@given(readings_near_limits(), st.integers(0, 3))
@settings(max_examples=400)
def test_a_single_reading_is_judged_as_an_array_of_one(
    case: tuple[Characteristic, Column, DecisionRule], piece: int
) -> None:
    characteristic, column, rule = case
    plan = column_plan(characteristic, column, rule)
    alone = block_of_one(plan, column, piece)
    # repr tells -0.0 from 0.0, which an answer's bytes do too.
    assert repr(alone) == repr(block_of(column, judge_readings(plan, column), piece, False, True))


@pytest.mark.parametrize("value", [True, False, None, "thread", "head"])
def test_a_single_result_is_judged_as_a_column_of_one(value: Any) -> None:
    for characteristic in CHARACTERISTICS:
        if characteristic.kind != "measured":
            column = Column(characteristic.id, [value])
            plan = column_plan(characteristic, column, RULES[0])
            assert block_of_one(plan, column, 2) == block_of(column, judge_attribute(plan, column), 2, False, True)


def test_a_reading_that_needs_another_one_is_not_judged_alone() -> None:
    bolt = specification(DESIGNATIONS[2]).characteristics

    def alone(id: str, column: Column) -> bool:
        plan: ColumnPlan = column_plan(bolt[id], column, RULES[0])
        return is_single(plan, column)

    one = np.array([1.0])
    assert alone("length", Column("length", one))
    assert not alone("length", Column("length", np.array([1.0, 2.0])))
    assert not alone("length", Column("length", one, pieces=(7,)))
    # ISO 898-1:2013, clause 9.1: the place of the break; Table 3, footnote h: the core of the same piece.
    assert not alone("tensile_load", Column("tensile_load", one))
    assert not alone("hardness_surface", Column("hardness_surface", one))
