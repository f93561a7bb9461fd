"""A straight trend through values in the order of production, as a tool wears, and the pieces until a limit.

Ordinary least squares; intervals by Student's t: of the line for its crossing (inverse regression), of single pieces.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..quantities import NotUnderstood
from .distributions import student_t_quantile
from .subgroups import Floats, free_of_dust, mean_of

_FEWEST = 3


@dataclass(frozen=True, slots=True)
class Trend:
    """Slope per piece with its interval, and the pieces after the last value until a limit; None: never, or not proved.

    `earliest` and `latest` are when the band of the line meets the limit, `at_risk` when that of a single piece does.
    """

    slope: float
    slope_interval: tuple[float, float]
    significant: bool
    residual_standard_deviation: float
    limit: float | None
    pieces_until_limit: float | None
    earliest: float | None
    latest: float | None
    at_risk: float | None


@dataclass(frozen=True, slots=True)
class _Line:
    """A fitted line; x is counted from the middle of the values. `band` is t times the residual deviation."""

    count: int
    level: float
    slope: float
    squares: float
    deviation: float
    band: float

    @property
    def last(self) -> float:
        """The place of the last value."""
        return (self.count - 1) / 2

    @property
    def reach(self) -> float:
        """Half the interval of the slope."""
        return self.band / math.sqrt(self.squares)

    def crossing(self, limit: float) -> float:
        """Return the pieces after the last until the line itself meets a limit; 0 where it has."""
        return max(0.0, (limit - self.level) / self.slope - self.last)

    def meets(self, limit: float, single: bool = False) -> tuple[float | None, float | None]:
        """Return the pieces until a band first meets a limit, and until it has passed; None: never.

        The band is where (level + slope x - limit)^2 <= band^2 (k + x^2 / squares), with k = 1/n for the line and
        1 + 1/n for a single piece: a quadratic in x.
        """
        gap = limit - self.level
        a = self.slope**2 - self.band**2 / self.squares
        b = -2 * self.slope * gap
        c = gap**2 - self.band**2 * (float(single) + 1 / self.count)
        roots = _roots(a, b, c)
        beyond = (self.level + self.slope * self.last - limit) * self.slope >= 0
        if beyond or (a * self.last + b) * self.last + c <= 0:
            first: float | None = 0.0
        else:
            first = min((root - self.last for root in roots if root > self.last), default=None)
        passed = max(0.0, roots[-1] - self.last) if a > 0 and roots else None
        return first, passed


def _roots(a: float, b: float, c: float) -> list[float]:
    """Return the real roots of a x^2 + b x + c, ascending."""
    if a == 0:
        return [] if b == 0 else [-c / b]
    discriminant = b * b - 4 * a * c
    if discriminant < 0:
        return []
    root = math.sqrt(discriminant)
    return sorted(((-b - root) / (2 * a), (-b + root) / (2 * a)))


def trend(values: Floats, low: float | None, high: float | None, confidence: float = 0.95) -> Trend:
    """Return the trend of at least three values, towards the limit that lies in its direction.

    Raises:
        NotUnderstood: fewer than three values.
    """
    line = _line(values, confidence)
    limit = high if line.slope > 0 else low if line.slope < 0 else None
    significant = abs(line.slope) > line.reach
    interval = (line.slope - line.reach, line.slope + line.reach)
    if limit is None:
        return Trend(line.slope, interval, significant, line.deviation, None, None, None, None, None)
    return Trend(
        line.slope,
        interval,
        significant,
        line.deviation,
        limit,
        line.crossing(limit) if significant else None,
        *line.meets(limit),
        line.meets(limit, single=True)[0],
    )


def _line(values: Floats, confidence: float) -> _Line:
    n = len(values)
    if n < _FEWEST:
        raise NotUnderstood(f"a trend needs at least {_FEWEST} values", member="values", code="out_of_range")
    at = np.arange(n, dtype=np.float64) - (n - 1) / 2
    squares, level = float((at**2).sum()), mean_of(values)
    slope = float((at * (values - level)).sum()) / squares
    residuals = free_of_dust(values - level - slope * at, values)
    deviation = math.sqrt(float((residuals**2).sum()) / (n - 2))
    return _Line(n, level, slope, squares, deviation, student_t_quantile((1 + confidence) / 2, n - 2) * deviation)
