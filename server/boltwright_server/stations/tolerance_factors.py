"""Tolerance factors k of a normal sample: mean +- k s holds a share `content` of the population with `confidence`.

ISO 16269-6, statistical tolerance intervals (both parameters unknown), by the exact integrals, not by the approximation
of 1946. Content and confidence are fractions.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from statistics import NormalDist

import numpy as np

from ..quantities.keeper import remembered

_NORMAL = NormalDist()
_NODES, _WEIGHTS = (tuple(map(float, column)) for column in np.polynomial.legendre.leggauss(200))
#: Where both tails of a sample's spread are beyond a double, in its own standard errors.
_TAILS = 11.0
_ROUNDS = 200
_CLOSE = 1e-13


def _below(x: float) -> float:
    return math.erfc(-x / math.sqrt(2)) / 2


@remembered(1024)
def one_sided(n: int, content: float, confidence: float) -> float:
    """Return k1, the noncentral t quantile over sqrt(n), for a limit on one side; n is 2 or more."""
    z = _NORMAL.inv_cdf(content)

    def reached(k: float) -> float:
        return _over_spread(n, 0.0, lambda u: _below(math.sqrt(n) * (k * u - z)))

    return _solved(reached, confidence)


@remembered(1024)
def two_sided(n: int, content: float, confidence: float) -> float:
    """Return k2 for limits on both sides; n is 2 or more.

    For a spread u of the sample, x is how far its mean may lie off so that the interval still holds the content.
    """
    least = _NORMAL.inv_cdf((1 + content) / 2)

    def reached(k: float) -> float:
        return _over_spread(n, least / k, lambda u: math.erf(math.sqrt(n / 2) * _room(k * u, content)))

    return _solved(reached, confidence)


def _room(half: float, content: float) -> float:
    """Return x with P(x - half < Z < x + half) = content; Newton's steps come down to it from above."""
    x = half - _NORMAL.inv_cdf(content)
    for _ in range(_ROUNDS):
        excess = _below(x + half) - _below(x - half) - content
        slope = _density(x + half) - _density(x - half)
        if slope >= 0 or x <= 0:
            return 0.0
        step = excess / slope
        x -= step
        if step <= _CLOSE * x:
            break
    return max(x, 0.0)


def _density(x: float) -> float:
    return math.exp(-x * x / 2) / math.sqrt(2 * math.pi)


def _over_spread(n: int, least: float, share: Callable[[float], float]) -> float:
    """Return the mean of `share` over u = s / sigma from `least` on: u^2 (n - 1) is chi-square.

    u = least + v^2, so that the root at the lower end is smooth.
    """
    degrees = n - 1
    scale = math.log(2) + degrees / 2 * math.log(degrees / 2) - math.lgamma(degrees / 2)
    highest = 1 + _TAILS / math.sqrt(2 * degrees) * (1 if degrees > 3 else 1.3)
    lowest = max(least, 1 - _TAILS / math.sqrt(2 * degrees))
    if lowest >= highest:
        return 0.0
    start, reach = lowest - least, math.sqrt(highest - least)
    half = (reach - math.sqrt(start)) / 2
    total = 0.0
    for node, weight in zip(_NODES, _WEIGHTS, strict=True):
        v = math.sqrt(start) + half * (1 + node)
        u = least + v * v
        if u > 0:
            total += weight * v * math.exp(scale + (degrees - 1) * math.log(u) - degrees * u * u / 2) * share(u)
    return 2 * half * total


def _solved(rising: Callable[[float], float], wanted: float) -> float:
    """Return where a rising function takes a value: false position, halving the end that stays (Illinois)."""
    low, high = 1e-9, 2.0
    while rising(high) < wanted:
        low, high = high, 2 * high
    below, above = rising(low) - wanted, rising(high) - wanted
    k = high
    for _ in range(_ROUNDS):
        if high - low <= _CLOSE * high or above <= below:
            break
        k = high - above * (high - low) / (above - below)
        excess = rising(k) - wanted
        if abs(excess) < _CLOSE:
            break
        if excess > 0:
            high, above, below = k, excess, below / 2
        else:
            low, below, above = k, excess, above / 2
    return k
