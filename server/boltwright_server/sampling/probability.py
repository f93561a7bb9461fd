"""Probability that a single plan accepts a lot.

Binomial for a running process, hypergeometric for one finite lot; exact but for the last digits of a double.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

import numpy as np

#: Up to this many factors a product is taken in whole numbers; above it in logarithms of doubles.
_EXACT_FACTORS = 400
#: Up to this lot the ways are counted in whole numbers.
_COUNTED_LOT = 2000
#: With more factors than this the probability is below 5e-5 for any lot that is served, and lgamma is near enough.
_SUMMED_FACTORS = 100_000


def acceptance_binomial(n: int, acceptance_number: int, fraction: float) -> float:
    """Return P(at most `acceptance_number` nonconforming in `n`) at a fraction nonconforming from 0 to 1."""
    if fraction <= 0:
        return 1.0
    if fraction >= 1:
        return 1.0 if acceptance_number >= n else 0.0
    terms = []
    for found in range(min(acceptance_number, n) + 1):
        log = math.log(math.comb(n, found)) + found * math.log(fraction) + (n - found) * math.log1p(-fraction)
        terms.append(math.exp(log))
    return min(1.0, math.fsum(terms))


def acceptance_hypergeometric(lot: int, nonconforming: int, n: int, acceptance_number: int = 0) -> float:
    """Return P(at most `acceptance_number` nonconforming in a sample of `n` from a lot with `nonconforming`)."""
    if acceptance_number == 0:
        return none_found(lot, nonconforming, n)
    if acceptance_number >= min(n, nonconforming):
        return 1.0
    if lot <= _COUNTED_LOT or n > lot - nonconforming:
        ways = (math.comb(nonconforming, k) * _ways(lot - nonconforming, n - k) for k in range(acceptance_number + 1))
        return float(Fraction(sum(ways), math.comb(lot, n)))
    # Each term from the one before it; in logarithms, for the first may be smaller than a double.
    log = _log_none_found(lot, nonconforming, n)
    terms = [math.exp(log)]
    for k in range(acceptance_number):
        log += math.log((nonconforming - k) * (n - k)) - math.log((k + 1) * (lot - nonconforming - n + k + 1))
        terms.append(math.exp(log))
    return min(1.0, math.fsum(terms))


def _ways(pieces: int, chosen: int) -> int:
    return math.comb(pieces, chosen) if chosen >= 0 else 0


def none_found(lot: int, nonconforming: int, n: int) -> float:
    """Return P(no nonconforming piece in a sample of `n`)."""
    if nonconforming <= 0:
        return 1.0
    if n > lot - nonconforming:
        return 0.0
    # C(lot - D, n) / C(lot, n) = C(lot - n, D) / C(lot, D): take the shorter product.
    steps, other = sorted((n, nonconforming))
    if steps <= _EXACT_FACTORS:
        return math.prod(range(lot - other, lot - other - steps, -1)) / math.prod(range(lot, lot - steps, -1))
    if steps > _SUMMED_FACTORS:
        log = math.lgamma(lot - other + 1) - math.lgamma(lot - other - steps + 1)
        return math.exp(log - math.lgamma(lot + 1) + math.lgamma(lot - steps + 1))
    return math.exp(_log_none_found(lot, other, steps))


def _log_none_found(lot: int, other: int, steps: int) -> float:
    factors = lot - np.arange(steps, dtype=np.float64)
    return math.fsum(np.log1p(-other / factors))


def fraction_at(probability: float, accepts: Callable[[float], float]) -> float:
    """Return the fraction nonconforming at which a falling acceptance probability equals `probability`."""
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2
        if accepts(middle) > probability:
            low = middle
        else:
            high = middle
    return (low + high) / 2
