"""Indices of distributions that are not normal, by the general geometric method.

ISO 22514-2 and ISO 21747:2006 (formulas from memory): in place of 6 s stands X99.865 % - X0.135 %, in place of the mean
X50 %. The percentiles are those of a fitted distribution, or of the values themselves where there are enough of them.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from ..quantities import NotUnderstood
from .distributions import NORMAL
from .goodness_of_fit import FEWEST, Fit, fits_normal, fits_weibull
from .indices import Index
from .subgroups import Floats

#: Where a normal distribution has its mean less and plus three standard deviations.
TAIL = 0.00135
Z = 3.0
#: From here on the 0.135 % point of the values, at rank 0.00135 (n + 1), is not beyond the least of them.
FEWEST_EMPIRICAL = 740
Covariance = tuple[float, float, float]
_STEP = 1e-5


@dataclass(frozen=True, slots=True)
class Percentiles:
    """X0.135 %, X50 % and X99.865 %, in the unit of the values."""

    lower: float
    median: float
    upper: float

    def pp(self, low: float, high: float) -> float:
        """Return the performance index."""
        return (high - low) / (self.upper - self.lower)

    def ppk(self, low: float | None, high: float | None) -> float:
        """Return the performance index of the nearer limit."""
        sides = [(high - self.median) / (self.upper - self.median)] if high is not None else []
        sides += [(self.median - low) / (self.median - self.lower)] if low is not None else []
        return min(sides)


@dataclass(frozen=True, slots=True)
class Fitted:
    """A distribution with its two parameters, their covariance (11, 12, 22), and how well it fits."""

    parameters: tuple[float, float]
    covariance: Covariance
    percentiles_of: Callable[[float, float], Percentiles]
    fit: Fit | None

    @property
    def percentiles(self) -> Percentiles:
        """Percentiles of the fitted parameters."""
        return self.percentiles_of(*self.parameters)

    def index(self, figure: Callable[[Percentiles], float], confidence: float) -> Index:
        """Return an index with its interval, by the slopes of the index along both parameters (delta method)."""
        value = figure(self.percentiles)
        slopes = [self._slope(figure, at) for at in (0, 1)]
        one, both, two = self.covariance
        variance = slopes[0] ** 2 * one + 2 * slopes[0] * slopes[1] * both + slopes[1] ** 2 * two
        reach = NORMAL.inv_cdf((1 + confidence) / 2) * math.sqrt(max(variance, 0.0))
        return Index(value, (value - reach, value + reach))

    def _slope(self, figure: Callable[[Percentiles], float], at: int) -> float:
        scale = math.sqrt((self.covariance[0], self.covariance[2])[at])
        ends = []
        for side in (-1, 1):
            moved = list(self.parameters)
            moved[at] += side * _STEP * scale
            ends.append(figure(self.percentiles_of(*moved)))
        return (ends[1] - ends[0]) / (2 * _STEP * scale)


def log_normal(ordered: Floats) -> Fitted:
    """Return the log-normal distribution of ascending values: mean and standard deviation of their logarithms."""
    logs = np.log(_positive(ordered))
    n = len(logs)
    spread = _some_spread(float(logs.std(ddof=1)))
    return Fitted(
        (float(logs.mean()), spread),
        (spread**2 / n, 0.0, spread**2 / (2 * (n - 1))),
        lambda mean, s: Percentiles(math.exp(mean - Z * s), math.exp(mean), math.exp(mean + Z * s)),
        fits_normal(logs) if n >= FEWEST else None,
    )


def weibull(ordered: Floats) -> Fitted:
    """Return the Weibull distribution of ascending values, shape and scale by maximum likelihood."""
    logs = np.log(_positive(ordered))
    _some_spread(float(logs.std(ddof=1)))
    n = len(logs)
    centred = logs - logs.max()
    shape = _shape(centred)
    scale = math.exp(float(logs.max())) * float(np.mean(np.exp(shape * centred))) ** (1 / shape)
    # Asymptotic covariance of the estimates: 6 / pi^2 and its companions with Euler's constant.
    covariance = (0.607927 * shape**2 / n, 0.257022 * scale / n, 1.108665 * (scale / shape) ** 2 / n)
    fit = fits_weibull(ordered, shape, scale) if n >= FEWEST else None
    return Fitted((shape, scale), covariance, _weibull_percentiles, fit)


def _weibull_percentiles(shape: float, scale: float) -> Percentiles:
    lower, median, upper = (scale * (-math.log1p(-p)) ** (1 / shape) for p in (TAIL, 0.5, 1 - TAIL))
    return Percentiles(lower, median, upper)


def beyond(name: str, parameters: tuple[float, float], limit: float, above: bool) -> float:
    """Return the share of a distribution below a limit, or `above` it; the tail itself, not 1 less the rest."""
    first, second = parameters
    if name == "normal":
        z = (limit - first) / second
        return math.erfc((z if above else -z) / math.sqrt(2)) / 2
    if limit <= 0:
        return float(above)
    if name == "log-normal":
        return beyond("normal", parameters, math.log(limit), above)
    # Beyond 700 nothing is left of a Weibull distribution in a double.
    power = math.exp(min(first * math.log(limit / second), math.log(700)))
    return math.exp(-power) if above else -math.expm1(-power)


def _shape(centred: Floats) -> float:
    """Return the shape k at which sum(x^k ln x) / sum(x^k) - 1 / k is the mean of ln x; it rises with k."""

    def excess(shape: float) -> float:
        weights = np.exp(shape * centred)
        return float((weights * centred).sum() / weights.sum() - centred.mean()) - 1 / shape

    low = high = 1.0
    while excess(low) > 0:
        low /= 2
    while excess(high) < 0:
        high *= 2
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if excess(middle) < 0 else (low, middle)
    return (low + high) / 2


def empirical(ordered: Floats) -> Percentiles | None:
    """Return the percentiles of ascending values at the ranks p (n + 1).

    None where the values are too few, or so much alike that half of the spread is none.
    """
    if len(ordered) < FEWEST_EMPIRICAL:
        return None
    lower, median, upper = map(float, np.quantile(ordered, [TAIL, 0.5, 1 - TAIL], method="weibull"))
    return Percentiles(lower, median, upper) if lower < median < upper else None


def _positive(ordered: Floats) -> Floats:
    if ordered[0] <= 0:
        text = "this distribution has values above 0 only; use normal or empirical"
        raise NotUnderstood(text, member="distribution", code="out_of_range")
    return ordered


def _some_spread(spread: float) -> float:
    if spread <= 1e-13:
        raise NotUnderstood("the values have no spread: no distribution fits", member="values", code="out_of_range")
    return spread
