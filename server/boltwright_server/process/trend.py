"""A straight trend through values in the order of production, as a tool wears, and the pieces until a limit.

Ordinary least squares; intervals by Student's t on the line.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..quantities import NotUnderstood
from .distributions import student_t_quantile
from .subgroups import Floats

_FEWEST = 3


@dataclass(frozen=True, slots=True)
class Trend:
    """Slope per piece with its interval, and the pieces until the line and its band reach a limit.

    None: never, or, for the line, a slope that is not proved.
    """

    slope: float
    slope_interval: tuple[float, float]
    significant: bool
    residual_standard_deviation: float
    limit: float | None
    pieces_until_limit: float | None
    earliest: float | None
    latest: float | None


def trend(values: Floats, low: float | None, high: float | None, confidence: float = 0.95) -> Trend:
    """Return the trend of at least three values; pieces are counted after the last one.

    Raises:
        NotUnderstood: fewer than three values.
    """
    n = len(values)
    if n < _FEWEST:
        raise NotUnderstood(f"a trend needs at least {_FEWEST} values", member="values", code="out_of_range")
    at = np.arange(n, dtype=np.float64)
    centre = at.mean()
    spread = float(((at - centre) ** 2).sum())
    slope = float(((at - centre) * (values - values.mean())).sum()) / spread
    level = float(values.mean())
    residual = values - level - slope * (at - centre)
    deviation = math.sqrt(float((residual**2).sum()) / (n - 2))
    t = student_t_quantile((1 + confidence) / 2, n - 2)
    reach = t * deviation / math.sqrt(spread)
    limit = high if slope > 0 else low if slope < 0 else None
    ends = (
        _crossings(limit, level, slope, t * deviation, n, float(centre), spread) if limit is not None else (None,) * 3
    )
    significant = abs(slope) > reach
    until = ends[0] if significant else None
    return Trend(slope, (slope - reach, slope + reach), significant, deviation, limit, until, ends[1], ends[2])


def _crossings(
    limit: float, level: float, slope: float, band: float, n: int, centre: float, spread: float
) -> tuple[float | None, float | None, float | None]:
    """Pieces after the last at which the line, and the near and far edge of its band, reach the limit."""
    last = n - 1
    line = _later((limit - level) / slope + centre - last)
    # (level + slope x - limit)^2 = band^2 (1/n + x^2 / spread), x counted from the centre
    gap = limit - level
    a = slope * slope - band * band / spread
    b = -2 * slope * gap
    c = gap * gap - band * band / n
    discriminant = b * b - 4 * a * c
    if a <= 0 or discriminant < 0:
        # The slope is not proved: the band opens around the limit on one side at least.
        roots = [] if discriminant < 0 or a == 0 else [(-b - math.sqrt(discriminant)) / (2 * a)]
        early = min((root for root in roots if root + centre > last), default=None)
        return line, None if early is None else early + centre - last, None
    root = math.sqrt(discriminant)
    ends = sorted(((-b - root) / (2 * a), (-b + root) / (2 * a)))
    return line, _later(ends[0] + centre - last), _later(ends[1] + centre - last)


def _later(pieces: float) -> float:
    return max(0.0, pieces)
