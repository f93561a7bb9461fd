"""Factors of control charts, n = 2 to 25, against the integrals and formulas that define them.

ISO 7870-2:2013, table of factors: A = 3 / sqrt(n), c4 by gamma functions, d2 and d3 mean and standard deviation of the
range of n normal values, the others from these.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from scipy import integrate, special

from boltwright_server.statistics.subgroups import factor

_X, _W = np.linspace(-9, 9, 901), np.linspace(0, 13, 1301)


@cache
def range_moments(n: int) -> tuple[float, float]:
    """Return d2 and d3: P(R <= w) = n times the integral of phi(x) (Phi(x + w) - Phi(x))^(n - 1)."""
    density = np.exp(-(_X**2) / 2) / math.sqrt(2 * math.pi)
    between = special.ndtr(_X[:, None] + _W) - special.ndtr(_X)[:, None]
    beyond = 1 - n * integrate.simpson(density[:, None] * between ** (n - 1), x=_X, axis=0)
    mean = integrate.simpson(beyond, x=_W)
    square = 2 * integrate.simpson(_W * beyond, x=_W)
    return float(mean), math.sqrt(square - mean**2)


@pytest.mark.parametrize("n", range(2, 26))
def test_every_factor_is_what_it_is_defined_to_be(n: int) -> None:
    d2, d3 = range_moments(n)
    c4 = math.sqrt(2 / (n - 1)) * math.exp(math.lgamma(n / 2) - math.lgamma((n - 1) / 2))
    wide = 3 * math.sqrt(1 - c4**2)
    expected = {
        "A": 3 / math.sqrt(n),
        "A2": 3 / (d2 * math.sqrt(n)),
        "A3": 3 / (c4 * math.sqrt(n)),
        "c4": c4,
        "d2": d2,
        "d3": d3,
        "B3": max(0.0, 1 - wide / c4),
        "B4": 1 + wide / c4,
        "B5": max(0.0, c4 - wide),
        "B6": c4 + wide,
        "D1": max(0.0, d2 - 3 * d3),
        "D2": d2 + 3 * d3,
        "D3": max(0.0, 1 - 3 * d3 / d2),
        "D4": 1 + 3 * d3 / d2,
    }
    assert {name: factor(name, n) for name in expected} == pytest.approx(expected, abs=1.1e-5)
