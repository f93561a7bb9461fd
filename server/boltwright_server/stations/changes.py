"""How a characteristic changes between two states of the part, by the plant's own pieces, measured before and after.

Common practice: n numbered pieces measured in both states with one instrument; the difference of a later piece lies
within shift +- k s. The product never invents a shift.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..quantities import Basis, NotUnderstood
from ..quantities.expression import Value, evaluate
from ..standards import other_source
from .tolerance_factors import one_sided, two_sided

FEWEST, FEWEST_TRUSTED = 2, 10
MOST = 10_000
#: A slope of the change over the size is told beyond this, and beyond two of its standard errors.
_STEEP, _ERRORS = 0.2, 2.0
#: Digits of a factor: more than the readings can tell, fewer than the integral holds.
_FACTOR_DIGITS = 10


def change_basis() -> Basis:
    """Return the basis of the factors that a change between two states is told by."""
    return other_source("ISO 16269-6", "statistical tolerance intervals")


@dataclass(frozen=True, slots=True)
class Change:
    """The change of a characteristic: after - before, in its unit; `slope` is that of the change over the size."""

    n: int
    shift: Fraction
    standard_deviation: Fraction
    content: float
    confidence: float
    slope: float | None = None
    notices: tuple[str, ...] = ()

    def factor(self, sides: int) -> Fraction:
        """Return k for limits on one or on both sides."""
        found = (one_sided if sides == 1 else two_sided)(self.n, self.content, self.confidence)
        return Fraction(round(found, _FACTOR_DIGITS)).limit_denominator(10**_FACTOR_DIGITS)


def change_of(before: Sequence[Fraction], after: Sequence[Fraction], content: float, confidence: float) -> Change:
    """Return shift and spread of paired readings.

    Raises:
        NotUnderstood: unequal lengths, or fewer than two pairs.
    """
    if len(before) != len(after):
        text = f"before has {len(before)} readings, after {len(after)}: each piece is measured in both states"
        raise NotUnderstood(text, member="after", code="unequal_columns")
    if not FEWEST <= len(before) <= MOST:
        text = f"{len(before)} pairs: a spread needs {FEWEST} to {MOST} (ten or more to be of use)"
        raise NotUnderstood(text, member="before", code="out_of_range")
    deltas = [late - early for early, late in zip(before, after, strict=True)]
    n = len(deltas)
    shift = sum(deltas, Fraction(0)) / n
    squares = sum(((one - shift) ** 2 for one in deltas), Fraction(0))
    slope, steep = _slope(before, deltas, shift)
    notices = [*([_few(n)] if n < FEWEST_TRUSTED else []), *([_told(slope)] if steep else [])]
    return Change(n, shift, root(squares / (n - 1)), content, confidence, slope, tuple(notices))


def root(square: Fraction) -> Fraction:
    """Return a square root: exact where it is one, else its first 50 digits."""
    return evaluate("sqrt(v)", {"v": Value(square)}).number


def _few(n: int) -> str:
    return (
        f"{n} pairs are few: the factor is large, and the pieces may come from one charge only; take {FEWEST_TRUSTED}"
    )


def _told(slope: float | None) -> str:
    return f"the shift depends on the size (slope {slope:.2f}): pair pieces from the whole zone, or find out why"


def _slope(before: Sequence[Fraction], deltas: Sequence[Fraction], shift: Fraction) -> tuple[float | None, bool]:
    """Return the slope of the change over the size, and whether it is to be told."""
    n = len(deltas)
    mean = sum(before, Fraction(0)) / n
    spread = sum(((one - mean) ** 2 for one in before), Fraction(0))
    if not spread:
        return None, False
    both = sum(((one - mean) * (delta - shift) for one, delta in zip(before, deltas, strict=True)), Fraction(0))
    slope = both / spread
    if n <= FEWEST:
        return float(slope), False
    left = sum(((d - shift) ** 2 for d in deltas), Fraction(0)) - slope * both
    error = math.sqrt(max(0.0, float(left / (n - 2) / spread)))
    return float(slope), abs(slope) > _STEEP and abs(float(slope)) > _ERRORS * error
