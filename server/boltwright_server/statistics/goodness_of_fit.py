"""The Anderson-Darling test: whether values may come from a distribution whose two parameters were fitted to them.

Handbook of goodness-of-fit techniques (1986), table 4.9 and its formulas for the significance (normal, both parameters
fitted) and table 4.17 (extreme values, both fitted), from memory; checked by simulation and against a library.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from .subgroups import Floats

SIGNIFICANCE = 0.05
#: The formulas for the significance hold from this number of values on.
FEWEST = 8
#: Adjusted statistic up to -> coefficients of 1, A, A^2 in the exponent, and whether it gives 1 - p.
_NORMAL = (
    (0.2, (-13.436, 101.14, -223.73), True),
    (0.34, (-8.318, 42.796, -59.938), True),
    (0.6, (0.9177, -4.279, -1.38), False),
    (math.inf, (1.2937, -5.709, 0.0186), False),
)
#: Beyond it the last formula turns upward again; the significance is nil there.
_NIL = 153.0
#: Adjusted statistic of extreme values that 5 % exceed.
_EXTREME = 0.757


@dataclass(frozen=True, slots=True)
class Fit:
    """The statistic as such and adjusted for the number of values; `rejected` at 5 % significance.

    `p_value` is None where only the 5 % point is tabulated.
    """

    statistic: float
    adjusted: float
    p_value: float | None
    rejected: bool


def fits_normal(values: Floats) -> Fit:
    """Test ascending values against a normal distribution; adjusted by 1 + 0.75 / n + 2.25 / n^2."""
    z = (values - values.mean()) / values.std(ddof=1)
    statistic = anderson_darling(_log_normal_cdf(z), _log_normal_cdf(-z))
    n = len(values)
    adjusted = statistic * (1 + 0.75 / n + 2.25 / n**2)
    p = _significance(adjusted)
    return Fit(statistic, adjusted, p, p < SIGNIFICANCE)


def fits_weibull(values: Floats, shape: float, scale: float) -> Fit:
    """Test ascending values against a Weibull distribution; adjusted by 1 + 0.2 / sqrt(n)."""
    power = (values / scale) ** shape
    with np.errstate(divide="ignore"):
        log_cdf = np.log(-np.expm1(-power))
    statistic = anderson_darling(log_cdf, -power)
    adjusted = statistic * (1 + 0.2 / math.sqrt(len(values)))
    return Fit(statistic, adjusted, None, adjusted > _EXTREME)


def anderson_darling(log_cdf: Floats, log_survival: Floats) -> float:
    """Return A^2 of ascending values from the logarithms of F and of 1 - F, so that far tails stay finite."""
    n = len(log_cdf)
    odd = 2 * np.arange(1, n + 1) - 1
    return float(-n - np.sum(odd * (log_cdf + log_survival[::-1])) / n)


def _significance(adjusted: float) -> float:
    if adjusted > _NIL:
        return 0.0
    _, (one, linear, square), complement = next(row for row in _NORMAL if adjusted <= row[0])
    tail = math.exp(one + linear * adjusted + square * adjusted**2)
    return 1 - tail if complement else tail


_erfc = np.frompyfunc(math.erfc, 1, 1)
#: Below it erfc leaves the doubles; the first terms of the asymptotic series take over.
_FAR = -37.0


def _log_normal_cdf(z: Floats) -> npt.NDArray[np.float64]:
    near = np.maximum(z, _FAR)
    logs = np.log(np.asarray(_erfc(-near / math.sqrt(2)), dtype=np.float64) / 2)
    far = np.minimum(z, _FAR)
    series = -(far**2) / 2 - np.log(-far * math.sqrt(2 * math.pi)) + np.log1p(-1 / far**2)
    return np.where(z < _FAR, series, logs)
