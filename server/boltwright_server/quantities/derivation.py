"""The way to a number, step by step: expression, inputs with their basis, unrounded and rounded result."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction
from typing import Literal

from .basis import Basis
from .expression import Value, evaluate, names_in
from .rounding import plain, significant
from .units import dimension, factor

RoundingRule = Literal["none", "half up", "half even", "up", "down", "significant, half up", "significant, half even"]
_MODES = {"half up": ROUND_HALF_UP, "half even": ROUND_HALF_EVEN, "up": ROUND_CEILING, "down": ROUND_FLOOR}
_SIGNIFICANT = "significant, "
_LENGTH_OF = {"in2": "in", "in3": "in"}
#: Digits shown of a number that has no end.
_SHOWN = 30


@dataclass(frozen=True, slots=True)
class Rounding:
    """How a step is rounded: `to` is the multiple in the unit of the step, or the count of significant digits."""

    rule: RoundingRule
    to: str | None = None

    def apply(self, number: Fraction) -> Decimal | None:
        """Return the rounded number, or None where nothing is rounded and the number has no end."""
        with localcontext(prec=60):
            value = Decimal(number.numerator) / number.denominator
            if self.to is None:
                return plain(value) if Fraction(value) == number else None
            mode = _MODES[self.rule.removeprefix(_SIGNIFICANT)]
            if self.rule.startswith(_SIGNIFICANT):
                return significant(value, int(self.to), mode)
            step = Decimal(self.to)
            return plain(((value / step).quantize(Decimal(1), rounding=mode) * step).quantize(step))

    def of(self, number: Decimal) -> Decimal:
        """Return a decimal rounded, or as it is where nothing is rounded."""
        rounded = self.apply(Fraction(number))
        return number if rounded is None else rounded


UNROUNDED = Rounding("none")


@dataclass(frozen=True, slots=True)
class Input:
    """A number that goes into a step: from a table (`basis`), or the result of an earlier step (`step`, 1-based)."""

    value: str
    unit: str
    basis: Basis | None = None
    step: int | None = None
    taken: Literal["unrounded", "rounded"] | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One step. `answers` is the path of the member of the answer that it gives; None for a step on the way."""

    number: int
    symbol: str
    expression: str
    inputs: dict[str, Input]
    unrounded: str
    exact: bool
    rounded: Decimal | None
    rounding: Rounding
    unit: str
    answers: str | None
    basis: Basis
    note: str | None = None


@dataclass(slots=True)
class Derivation:
    """Collects the steps of one answer. Symbols are looked up as the expressions name them.

    While `answering` is false the steps lead to other numbers of the answer, and none is one itself.
    """

    answering: bool = True
    steps: list[Step] = field(default_factory=list)
    _known: dict[str, tuple[Input, Value]] = field(default_factory=dict)

    def given(self, symbol: str, value: Decimal | Fraction, unit: str, basis: Basis) -> None:
        """Make a tabulated or nominal number known by its symbol."""
        number = Value(Fraction(value))
        text = str(plain(value)) if isinstance(value, Decimal) else text_of(number)
        self._known[symbol] = (Input(text, unit, basis), number)

    def number(self, symbol: str) -> Fraction:
        """Return a number that is known, or that a step gave, as later steps take it."""
        return self._known[symbol][1].number

    def step(
        self,
        symbol: str,
        expression: str,
        unit: str,
        basis: Basis,
        rounding: Rounding = UNROUNDED,
        answers: str | None = None,
        note: str | None = None,
    ) -> Decimal | None:
        """Add a step and return its rounded result; later expressions take it rounded, where it is rounded."""
        inputs = {name: self._known[name][0] for name in names_in(expression)}
        result = evaluate(expression, self._coherent(inputs, unit))
        rounded = rounding.apply(result.number) if result.exact or rounding is not UNROUNDED else None
        shown = text_of(result)
        number = len(self.steps) + 1
        answers = answers if self.answering else None
        self.steps.append(
            Step(number, symbol, expression, inputs, shown, result.exact, rounded, rounding, unit, answers, basis, note)
        )
        if rounding is UNROUNDED or rounded is None:
            self._known[symbol] = (Input(shown, unit, None, number, "unrounded"), result)
        else:
            self._known[symbol] = (Input(str(rounded), unit, None, number, "rounded"), Value(Fraction(rounded)))
        return rounded

    def _coherent(self, inputs: Mapping[str, Input], unit: str) -> dict[str, Value]:
        """Lengths are brought into the unit of the step (in for in2, mm for mm2 and loads); the others are coherent."""
        length = unit if dimension(unit) == "length" else _LENGTH_OF.get(unit, "mm")
        found = {}
        for name, one in inputs.items():
            value = self._known[name][1]
            if one.unit != length and dimension(one.unit) == "length":
                value = Value(value.number * factor(one.unit, length), value.exact)
            found[name] = value
        return found


def text_of(value: Value) -> str:
    """Return an exact number as a decimal or a fraction, another one as its first digits and an ellipsis."""
    number = value.number
    with localcontext(prec=_SHOWN):
        decimal = Decimal(number.numerator) / number.denominator
    if not value.exact:
        return f"{decimal}..."
    return str(plain(decimal)) if Fraction(decimal) == number else f"{number.numerator}/{number.denominator}"
