"""The steps of `explain`: how each number of an answer follows from the tables."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from ..values import Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class StepInput:
    """A number that goes into a step: tabulated, with its basis, or the result of an earlier `step`.

    `value` is text: an exact decimal or fraction, or the first digits of a number without end and an ellipsis.
    """

    value: str
    unit: str
    step: int | None = None
    taken: str | None = None
    basis: Basis | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounding:
    """The rule, and the multiple or the count of significant digits in `to`; None where nothing is rounded."""

    rule: str
    to: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: expression, inputs, result before and after rounding.

    `answers` is the path of the member of the answer that the step gives, None for a step on the way.
    """

    step: int
    symbol: str
    expression: str
    inputs: Mapping[str, StepInput] = field(default_factory=dict)
    unrounded: str
    exact: bool
    rounded: Decimal | None
    rounding: Rounding
    unit: str
    answers: str | None = None
    basis: Basis
    note: str | None = None

    def __str__(self) -> str:
        """Return the step as one line."""
        result = self.unrounded if self.rounded is None else f"{self.rounded:f}"
        unit = "" if self.unit == "1" else f" {self.unit}"
        return f"{self.symbol} = {self.expression} = {result}{unit}"
