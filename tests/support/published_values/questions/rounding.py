"""Questions about rounding: ISO 80000-1 Annex B and ASTM E29."""

from __future__ import annotations

from decimal import Decimal

from boltwright_server.conformance.rules import SIMPLE, DecisionRule
from boltwright_server.quantities.rounding import half_even, half_up

from ..check import Cells, Check
from ..comparison import Answer
from .judgement import verdict_on

#: Rule A of Annex B takes the even multiple of two equally near ones, rule B the greater.
_RULES = {"A": half_even, "B": half_up}


def _quantum(text: str) -> str:
    """Return `10` as 1E+1: a decimal's quantum is its exponent."""
    number = Decimal(text)
    return str(Decimal(1).scaleb(number.adjusted()))


def rounding(row: Cells, check: Check) -> Answer:
    """A value rounded to a range by rule A or B."""
    return {"rounded": _RULES[row["rule"]](Decimal(row["value"]), _quantum(row["range"]))}


def rounding_of_readings(row: Cells, check: Check) -> Answer:
    """A reading compared as read or rounded to the unit of the limit; what is compared, and the verdict."""
    limit, reading = Decimal(row["limit"]), Decimal(row["reading"])
    sides = {row["side"]: limit}
    if row["method"] == "absolute":
        return {"compared": reading, "verdict": verdict_on(reading, row["unit"], DecisionRule("absolute"), **sides)}
    if row["method"] == "rounding":
        compared = half_even(reading, _quantum(row["rounding_unit"]))
        verdict = verdict_on(reading, row["unit"], DecisionRule("rounded"), **sides)
        assert verdict == verdict_on(compared, row["unit"], SIMPLE, **sides), "rounding and comparing disagree"
        return {"compared": compared, "verdict": verdict}
    compared = half_up(reading, _quantum(row["rounding_unit"]))
    return {
        "compared": compared,
        "verdict": verdict_on(reading, row["unit"], DecisionRule("rounded", ties="greater"), **sides),
    }


QUESTIONS = {"rounding": rounding, "rounding_of_readings": rounding_of_readings}
