"""The distributions that capability and trends need, on the standard library alone.

chi-square by the regularised incomplete gamma function (series below a + 1, continued fraction above).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from statistics import NormalDist

NORMAL = NormalDist()
_ROUNDS, _SMALL = 500, 4e-16


def chi_square_cdf(x: float, degrees: float) -> float:
    """Return P(X <= x) for chi-square with `degrees` degrees of freedom."""
    return _gamma_p(degrees / 2, x / 2) if x > 0 else 0.0


def chi_square_quantile(probability: float, degrees: float) -> float:
    """Return x with P(X <= x) = `probability`."""
    high = max(4.0 * degrees, 50.0)
    while chi_square_cdf(high, degrees) < probability:
        high *= 2
    return _quantile(lambda x: chi_square_cdf(x, degrees), probability, 0.0, high)


def _quantile(cdf: Callable[[float], float], probability: float, low: float, high: float) -> float:
    """Return where a rising function between two places takes a value, by bisection to the last bits."""
    while True:
        middle = (low + high) / 2
        if middle in (low, high):
            return middle
        if cdf(middle) < probability:
            low = middle
        else:
            high = middle
        if high - low <= 4e-16 * (abs(low) + abs(high)):
            return (low + high) / 2


def _gamma_p(a: float, x: float) -> float:
    scale = math.exp(-x + a * math.log(x) - math.lgamma(a))
    return scale * _series(a, x) if x < a + 1 else 1.0 - scale * _continued_fraction(a, x)


def _series(a: float, x: float) -> float:
    term = total = 1.0 / a
    for step in range(1, _ROUNDS * 20):
        term *= x / (a + step)
        total += term
        if term < total * _SMALL:
            break
    return total


def _continued_fraction(a: float, x: float) -> float:
    b = x + 1.0 - a
    c, d = 1e300, 1.0 / b
    result = d
    for step in range(1, _ROUNDS * 20):
        coefficient = -step * (step - a)
        b += 2.0
        d = 1.0 / (coefficient * d + b)
        c = b + coefficient / c
        change = d * c
        result *= change
        if abs(change - 1.0) < _SMALL:
            break
    return result


def student_t_cdf(t: float, degrees: float) -> float:
    """Return P(T <= t) for Student's t, by the regularised incomplete beta function."""
    if t == 0:
        return 0.5
    tail = _beta_i(degrees / 2, 0.5, degrees / (degrees + t * t)) / 2
    return 1 - tail if t > 0 else tail


def student_t_quantile(probability: float, degrees: float) -> float:
    """Return t with P(T <= t) = `probability`."""
    if probability < 0.5:
        return -student_t_quantile(1 - probability, degrees)
    high = 1.0
    while student_t_cdf(high, degrees) < probability:
        high *= 2
    return _quantile(lambda t: student_t_cdf(t, degrees), probability, 0.0, high)


def _beta_i(a: float, b: float, x: float) -> float:
    if x == 1:
        return 1.0
    front = math.exp(math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x))
    if x < (a + 1) / (a + b + 2):
        return front * _beta_fraction(a, b, x) / a
    return 1 - front * _beta_fraction(b, a, 1 - x) / b


def _beta_fraction(a: float, b: float, x: float) -> float:
    """Lentz's continued fraction."""
    c, d = 1.0, 1.0 / (1.0 - (a + b) * x / (a + 1.0))
    result = d
    for m in range(1, _ROUNDS):
        even = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        d = 1.0 / (1.0 + even * d)
        c = 1.0 + even / c
        result *= d * c
        odd = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        d = 1.0 / (1.0 + odd * d)
        c = 1.0 + odd / c
        result *= d * c
        if abs(d * c - 1.0) < _SMALL:
            break
    return result
