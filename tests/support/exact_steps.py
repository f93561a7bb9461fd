"""Recomputes a derivation as it leaves the service: the expression text on the inputs named, nothing of the engine.

Fractions throughout. A root or pi is an interval of 10^-60; a result is accepted only if both ends round to the same
number, so no digit rests on luck. Lengths are brought to the unit of the step, and to in for in2; mm, N, MPa and mm2
are coherent.
"""

from __future__ import annotations

import ast
import operator
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import floor, isqrt
from typing import Any

_SCALE = 10**60
_LENGTHS = {"mm": Fraction(1), "um": Fraction(1, 1000), "in": Fraction("25.4")}


@dataclass(frozen=True)
class Interval:
    """Every number from `low` to `high`; a point where they are equal."""

    low: Fraction
    high: Fraction

    @classmethod
    def point(cls, number: Fraction) -> Interval:
        return cls(number, number)

    def scaled(self, factor: Fraction) -> Interval:
        return Interval(self.low * factor, self.high * factor)


@dataclass(frozen=True, eq=False)
class Result:
    """What a step gave: before and after rounding. Equal steps share one object, so each is computed once."""

    unrounded: Interval
    rounded: Fraction | None
    wrong: str | None


_DONE: dict[tuple[Any, ...], Result] = {}


def recompute(steps: Sequence[Mapping[str, Any]]) -> list[str]:
    """Return one line for each step whose numbers do not follow from its expression and inputs."""
    known: dict[int, Result] = {}
    for step in steps:
        rounding = step["rounding"]
        key = (
            step["expression"],
            step["unit"],
            rounding["rule"],
            rounding["to"],
            step["unrounded"],
            step["exact"],
            str(step["rounded"]),
            *((name, _source(one, known), one["unit"]) for name, one in step["inputs"].items()),
        )
        if key not in _DONE:
            _DONE[key] = _result(step, known)
        known[step["step"]] = _DONE[key]
    return [f"step {number}: {one.wrong}" for number, one in known.items() if one.wrong]


def _source(one: Mapping[str, Any], known: Mapping[int, Result]) -> object:
    if "step" in one:
        return known[one["step"]], one["taken"], one["value"]
    assert one["basis"]["standard"], "a number without a basis"
    return one["value"]


def _result(step: Mapping[str, Any], known: Mapping[int, Result]) -> Result:
    values = {name: _value(one, step, known) for name, one in step["inputs"].items()}
    result = _evaluate(step["expression"], values)
    rounded = _rounded(result, step["rounding"])
    shown = None if step["rounded"] is None else Fraction(str(step["rounded"]))
    wrong = _not_the_result(step, known)
    if shown != rounded:
        wrong = f"{step['symbol']} = {rounded} is shown as {shown}"
    elif not _is_shown(result, step["unrounded"], step["exact"]):
        wrong = f"{step['symbol']}: unrounded {step['unrounded']}"
    return Result(result, shown, wrong)


def _not_the_result(step: Mapping[str, Any], known: Mapping[int, Result]) -> str | None:
    """A rounded input must be what its step gave."""
    for name, one in step["inputs"].items():
        if one.get("taken") == "rounded" and known[one["step"]].rounded != Fraction(one["value"]):
            return f"{step['symbol']}: {name} = {one['value']} is not the result of step {one['step']}"
    return None


def _value(one: Mapping[str, Any], step: Mapping[str, Any], known: Mapping[int, Result]) -> Interval:
    if "step" not in one:
        value = Interval.point(Fraction(one["value"]))
    elif one["taken"] == "unrounded":
        value = known[one["step"]].unrounded
    else:
        value = Interval.point(Fraction(one["value"]))
    if one["unit"] == step["unit"] or one["unit"] not in _LENGTHS:
        return value
    return value.scaled(_LENGTHS[one["unit"]] / _LENGTHS.get(step["unit"].removesuffix("2"), Fraction(1)))


def _rounded(result: Interval, rounding: Mapping[str, Any]) -> Fraction | None:
    if rounding["to"] is None:
        return result.low if result.low == result.high and _is_decimal(result.low) else None
    ends = {_round(end, rounding["rule"], rounding["to"]) for end in (result.low, result.high)}
    assert len(ends) == 1, f"{result} cannot be rounded with certainty"
    return ends.pop()


def _is_decimal(number: Fraction) -> bool:
    """A rational with an end: no prime but 2 and 5 in its denominator."""
    denominator = number.denominator
    for prime in (2, 5):
        while denominator % prime == 0:
            denominator //= prime
    return denominator == 1


def _round(number: Fraction, rule: str, to: str) -> Fraction:
    quantum = Fraction(to) if not rule.startswith("significant") else _decade(number, int(to))
    multiple = number / quantum
    below = floor(multiple)
    rest = multiple - below
    if rule == "down":
        return below * quantum
    if rest == Fraction(1, 2):
        up = (multiple > 0) if rule.endswith("half up") else below % 2 == 1
        return (below + (1 if up else 0)) * quantum
    return (below + (1 if rest > Fraction(1, 2) else 0)) * quantum


def _decade(number: Fraction, digits: int) -> Fraction:
    quantum = Fraction(1)
    while abs(number) >= quantum * 10**digits:
        quantum *= 10
    while abs(number) < quantum * 10 ** (digits - 1):
        quantum /= 10
    return quantum


def _is_shown(result: Interval, text: str, exact: bool) -> bool:
    if exact:
        return result.low == result.high == Fraction(text)
    assert text.endswith("..."), "digits without end need an ellipsis"
    digits = text.removesuffix("...")
    half_of_the_last = Fraction(1, 2 * 10 ** len(digits.partition(".")[2]))
    return abs(Fraction(digits) - result.low) <= half_of_the_last + (result.high - result.low)


@cache
def _parsed(expression: str) -> ast.expr:
    return ast.parse(expression, mode="eval").body


def _evaluate(expression: str, values: Mapping[str, Interval]) -> Interval:
    return _node(_parsed(expression), values)


def _node(node: ast.expr, values: Mapping[str, Interval]) -> Interval:
    if isinstance(node, ast.Constant):
        return _constant(repr(node.value))
    if isinstance(node, ast.Name):
        return pi() if node.id == "pi" else values[node.id]
    if isinstance(node, ast.BinOp):
        left, right = _node(node.left, values), _node(node.right, values)
        return _power(left, right) if isinstance(node.op, ast.Pow) else _combine(_OPERATORS[type(node.op)], left, right)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return _node(node.operand, values).scaled(Fraction(-1))
    assert isinstance(node, ast.Call), ast.dump(node)
    assert isinstance(node.func, ast.Name), ast.dump(node)
    return _FUNCTIONS[node.func.id](*(_node(argument, values) for argument in node.args))


@cache
def _constant(text: str) -> Interval:
    return Interval.point(Fraction(text))


_OPERATORS: dict[type[ast.operator], Callable[[Fraction, Fraction], Fraction]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}


def _combine(apply: Callable[[Fraction, Fraction], Fraction], left: Interval, right: Interval) -> Interval:
    if left.low is left.high and right.low is right.high:
        return Interval.point(apply(left.low, right.low))
    assert apply is not operator.truediv or right.low > 0 or right.high < 0
    ends = [apply(one, other) for one in (left.low, left.high) for other in (right.low, right.high)]
    return Interval(min(ends), max(ends))


def _power(base: Interval, exponent: Interval) -> Interval:
    assert exponent.low == 2, "only squares are used"
    ends = (base.low**2, base.high**2)
    return Interval(Fraction(0) if base.low < 0 < base.high else min(ends), max(ends))


def _root(of: Interval) -> Interval:
    assert of.low >= 0
    return Interval(_root_of(of.low, up=False), _root_of(of.high, up=True))


@cache
def _root_of(number: Fraction, up: bool) -> Fraction:
    exact = Fraction(isqrt(number.numerator), isqrt(number.denominator))
    if exact**2 == number:
        return exact
    below = isqrt(number.numerator * _SCALE**2 // number.denominator)
    return Fraction(below + (1 if up else 0), _SCALE)


def _cube_root(of: Interval) -> Interval:
    assert of.low >= 0
    return Interval(_cube_root_of(of.low, up=False), _cube_root_of(of.high, up=True))


@cache
def _cube_root_of(number: Fraction, up: bool) -> Fraction:
    exact = Fraction(_whole_cube_root(number.numerator), _whole_cube_root(number.denominator))
    if exact**3 == number:
        return exact
    below = _whole_cube_root(number.numerator * _SCALE**3 // number.denominator)
    return Fraction(below + (1 if up else 0), _SCALE)


def _whole_cube_root(number: int) -> int:
    """Newton from above: the greatest whole number whose cube is not greater."""
    root = 1 << -(-number.bit_length() // 3)
    while root**3 > number:
        root = (2 * root + number // root**2) // 3
    return root


def _absolute(of: Interval) -> Interval:
    assert of.low >= 0 or of.high <= 0
    ends = sorted((abs(of.low), abs(of.high)))
    return Interval(ends[0], ends[1])


@cache
def pi() -> Interval:
    """Machin: pi = 16 arctan(1/5) - 4 arctan(1/239), each series cut after a term below 10^-60."""
    low = 16 * _arctangent(5, -1) - 4 * _arctangent(239, 1)
    high = 16 * _arctangent(5, 1) - 4 * _arctangent(239, -1)
    return Interval(low, high)


def _arctangent(of: int, sign: int) -> Fraction:
    """The alternating series of arctan(1/of), cut so that it lies below (-1) or above (1) the sum."""
    total, k = Fraction(0), 0
    while True:
        term = Fraction(1, (2 * k + 1) * of ** (2 * k + 1))
        total += term if k % 2 == 0 else -term
        if term < Fraction(1, _SCALE) and (k % 2 == 0) == (sign > 0):
            return total
        k += 1


_FUNCTIONS: dict[str, Callable[..., Interval]] = {
    "sqrt": _root,
    "cbrt": _cube_root,
    "abs": _absolute,
    "min": lambda *of: Interval(min(one.low for one in of), min(one.high for one in of)),
    "max": lambda *of: Interval(max(one.low for one in of), max(one.high for one in of)),
}
