"""Evaluates the expressions that a derivation shows, so that what is shown is what was computed.

Rational arithmetic throughout; only roots without an exact value, `pi`, `tan` (of degrees), `acos` (in radians) and
`ln` leave it, with 50 digits and a mark that says so. The expressions are constants of the engines, never text of a
client. Where a figure needs no more than planning does, the same text is evaluated in doubles.
"""

from __future__ import annotations

import ast
import math
import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction
from math import isqrt
from types import CodeType

from .keeper import remembered

_DIGITS = 50
_PI = Fraction("3.14159265358979323846264338327950288419716939937510582")
_OPERATORS: dict[type[ast.operator], Callable[[Fraction, Fraction], Fraction]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
}
#: Names in an expression that are no inputs.
FUNCTIONS = ("sqrt", "cbrt", "abs", "min", "max", "tan", "acos", "ln", "pi")
_IN_DOUBLES: dict[str, object] = {
    "__builtins__": {},
    "sqrt": math.sqrt,
    "cbrt": math.cbrt,
    "abs": abs,
    "min": min,
    "max": max,
    "tan": lambda degrees: math.tan(math.radians(degrees)),
    "acos": math.acos,
    "ln": math.log,
    "pi": math.pi,
}


@dataclass(frozen=True, slots=True)
class Value:
    """A number, and whether it is the exact one or its first 50 digits."""

    number: Fraction
    exact: bool = True


@remembered()
def _parsed(expression: str) -> ast.expr:
    return ast.parse(expression, mode="eval").body


@remembered()
def names_in(expression: str) -> tuple[str, ...]:
    """Return the symbols of an expression in the order in which they stand there."""
    nodes = [node for node in ast.walk(_parsed(expression)) if isinstance(node, ast.Name)]
    nodes.sort(key=lambda node: (node.lineno, node.col_offset))
    return tuple(dict.fromkeys(node.id for node in nodes if node.id not in FUNCTIONS))


def evaluate(expression: str, values: Mapping[str, Value]) -> Value:
    """Return the value of an expression of + - * /, whole powers and `FUNCTIONS`.

    Raises:
        KeyError: a symbol has no value.
        ValueError: something else stands in the expression.
    """
    return _value(_parsed(expression), values)


def in_doubles(expression: str, values: Mapping[str, float]) -> float:
    """Return the value of an expression in doubles, some hundred times faster than the exact one.

    Raises:
        NameError: a symbol has no value.
    """
    return float(eval(_compiled(expression), _IN_DOUBLES, {**values}))


@remembered(1024)
def _compiled(expression: str) -> CodeType:
    return compile(expression, "<expression>", "eval")


def _value(node: ast.expr, values: Mapping[str, Value]) -> Value:
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        return _constant(node.value)
    if isinstance(node, ast.Name):
        return Value(_PI, exact=False) if node.id == "pi" else values[node.id]
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        inner = _value(node.operand, values)
        return Value(-inner.number, inner.exact)
    if isinstance(node, ast.BinOp):
        return _operation(node, values)
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        return _function(node.func.id, [_value(argument, values) for argument in node.args])
    raise ValueError(f"{ast.dump(node)} has no place in an expression")


@remembered()
def _constant(number: int | float) -> Value:
    return Value(Fraction(repr(number)))


def _operation(node: ast.BinOp, values: Mapping[str, Value]) -> Value:
    left, right = _value(node.left, values), _value(node.right, values)
    exact = left.exact and right.exact
    if isinstance(node.op, ast.Pow):
        return Value(left.number ** int(right.number), exact)
    return Value(_OPERATORS[type(node.op)](left.number, right.number), exact)


def _function(name: str, arguments: list[Value]) -> Value:
    if name == "sqrt":
        return _root(arguments[0])
    if name == "cbrt":
        return _cube_root(arguments[0])
    if name == "abs":
        return Value(abs(arguments[0].number), arguments[0].exact)
    if name in _CURVES:
        return _CURVES[name](arguments[0])
    chosen = {"min": min, "max": max}[name](arguments, key=lambda one: one.number)
    return Value(chosen.number, all(one.exact for one in arguments))


def _root(of: Value) -> Value:
    numerator, denominator = isqrt(of.number.numerator), isqrt(of.number.denominator)
    root = Fraction(numerator, denominator)
    if root * root == of.number:
        return Value(root, of.exact)
    with localcontext(prec=_DIGITS):
        return Value(Fraction((Decimal(of.number.numerator) / of.number.denominator).sqrt()), exact=False)


def _cube_root(of: Value) -> Value:
    """The root of the nearest whole cubes is tried first, so that a tie after it stays a tie."""
    with localcontext(prec=_DIGITS):
        root = (Decimal(of.number.numerator) / of.number.denominator) ** (Decimal(1) / 3)
    numerator, denominator = (round(part ** (1 / 3)) for part in of.number.as_integer_ratio())
    if Fraction(numerator, denominator) ** 3 == of.number:
        return Value(Fraction(numerator, denominator), of.exact)
    return Value(Fraction(root), exact=False)


def _decimal(number: Fraction) -> Decimal:
    return Decimal(number.numerator) / number.denominator


def _sine_and_cosine(x: Decimal) -> tuple[Decimal, Decimal]:
    """By their series, for angles of some radians."""
    sums, term, order = [Decimal(0), Decimal(1)], Decimal(1), 0
    while abs(term) > Decimal(10) ** -(_DIGITS + 8):
        order += 1
        term = term * x / order
        sums[(order + 1) % 2] += term if order % 4 in (0, 1) else -term
    return sums[0], sums[1]


def _tangent(degrees: Value) -> Value:
    if degrees.number == 45:
        return Value(Fraction(1), degrees.exact)
    with localcontext(prec=_DIGITS + 10):
        sine, cosine = _sine_and_cosine(_decimal(degrees.number * _PI / 180))
        return Value(Fraction(+(sine / cosine)), exact=False)


def _arc_cosine(of: Value) -> Value:
    """In radians, by Newton's steps from the double; at 1 the slope is none, and so is the angle."""
    if of.number == 1:
        return Value(Fraction(0), of.exact)
    with localcontext(prec=_DIGITS + 10):
        wanted, x = _decimal(of.number), Decimal(math.acos(of.number))
        for _ in range(3):
            sine, cosine = _sine_and_cosine(x)
            x += (cosine - wanted) / sine
        return Value(Fraction(x), exact=False)


def _logarithm(of: Value) -> Value:
    if of.number == 1:
        return Value(Fraction(0), of.exact)
    with localcontext(prec=_DIGITS):
        return Value(Fraction(_decimal(of.number).ln()), exact=False)


_CURVES: dict[str, Callable[[Value], Value]] = {"tan": _tangent, "acos": _arc_cosine, "ln": _logarithm}
