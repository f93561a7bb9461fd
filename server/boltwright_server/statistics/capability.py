"""Process capability and performance indices.

ISO 22514-2 (terms and formulas from memory): Cp, Cpk with the spread within subgroups, Pp, Ppk with the overall one; of
a distribution that is not normal, Pp and Ppk by its percentiles.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ..quantities import NotUnderstood
from .control_chart import control_chart
from .goodness_of_fit import FEWEST, Fit, fits_normal
from .histogram import steps_of
from .indices import Index, Spread, nearest, two_sided
from .percentiles import FEWEST_EMPIRICAL, Fitted, Percentiles, beyond, empirical, log_normal, weibull
from .subgroups import LARGEST, LARGEST_BY_RANGE, Floats, Within, mean_of, within

DISTRIBUTIONS = ("normal", "log-normal", "weibull", "empirical")
#: Sums of decimals read as doubles leave dust; a spread below this part of the mean is no spread.
_DUST = 1e-13
#: Readings in steps of this part of their spread or more look discrete to the test of their distribution.
_COARSE = 0.5


@dataclass(frozen=True, slots=True)
class Distribution:
    """What the indices of performance suppose; `fit` is None for values that are too few or empirical."""

    name: str
    percentiles: Percentiles | None
    parameters: tuple[float, float] | None
    fit: Fit | None

    def beyond(self, limit: float | None, above: bool) -> float | None:
        """Return the share expected below a limit, or `above` it; None without a limit, a spread or parameters."""
        if limit is None or self.parameters is None or self.parameters[1] == 0:
            return None
        return beyond(self.name, self.parameters, limit, above)


@dataclass(frozen=True, slots=True)
class Capability:
    """Indices of a process; None where a limit or a spread is missing. Figures in the unit of the values."""

    count: int
    mean: float
    standard_deviation_within: float | None
    standard_deviation_overall: float | None
    within_method: str
    cp: Index | None
    cpk: Index | None
    pp: Index | None
    ppk: Index | None
    distribution: Distribution
    #: Shares expected below the lower and above the upper limit, of all values as they were made.
    expected_beyond: tuple[float | None, float | None]
    notices: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Sample:
    """Values with what every index needs of them; a spread that is none is None."""

    ordered: Floats
    mean: float
    inner: Within
    overall: float
    within: Spread | None
    total: Spread | None

    @classmethod
    def of(cls, values: Floats, subgroup_size: int) -> _Sample:
        ordered = np.sort(values)
        mean, overall, count = mean_of(values), float(ordered.std(ddof=1)), len(values)
        inner = within(values, subgroup_size)
        dust = _DUST * max(abs(mean), 1e-300)
        spread = Spread(inner.standard_deviation, inner.degrees_of_freedom, mean, count)
        total = Spread(overall, count - 1.0, mean, count)
        return cls(
            ordered,
            mean,
            inner,
            overall,
            spread if inner.standard_deviation > dust else None,
            total if overall > dust else None,
        )


def capability(
    values: Floats,
    low: float | None,
    high: float | None,
    subgroup_size: int = 1,
    confidence: float = 0.95,
    distribution: str = "normal",
) -> Capability:
    """Return the indices of values in the order of production against limits, one of which may be missing.

    Of another distribution than the normal one there are Pp and Ppk only: the spread within subgroups supposes a normal
    distribution.

    Raises:
        NotUnderstood: fewer values than two or than one subgroup, no limit, a subgroup size without factors, or values
        that the distribution cannot have.
    """
    _check(values, low, high, subgroup_size)
    sample = _Sample.of(values, subgroup_size)
    found, pp, ppk = _performance(sample, low, high, confidence, distribution)
    is_normal = distribution == "normal"
    notices = (*_of_sample(sample, values, subgroup_size, is_normal), *_of_distribution(found, sample))
    return Capability(
        len(values),
        sample.mean,
        sample.inner.standard_deviation,
        sample.overall,
        sample.inner.method,
        two_sided(low, high, sample.within, confidence) if is_normal else None,
        nearest(low, high, sample.within, confidence) if is_normal else None,
        pp,
        ppk,
        found,
        (found.beyond(low, above=False), found.beyond(high, above=True)) if sample.total else (None, None),
        notices,
    )


def _check(values: Floats, low: float | None, high: float | None, size: int) -> None:
    if not 1 <= size <= LARGEST:
        raise NotUnderstood(f"subgroup_size is from 1 to {LARGEST}", member="subgroup_size", code="out_of_range")
    least = max(2, size)
    if len(values) < least:
        raise NotUnderstood(f"capability needs at least {least} values", member="values", code="out_of_range")
    if low is None and high is None:
        raise NotUnderstood("capability needs min or max", member="min", code="missing_member")


def _performance(
    sample: _Sample, low: float | None, high: float | None, confidence: float, name: str
) -> tuple[Distribution, Index | None, Index | None]:
    """Return the distribution with Pp and Ppk."""
    if name == "normal" or sample.total is None:
        return (
            _normal(sample),
            two_sided(low, high, sample.total, confidence),
            nearest(low, high, sample.total, confidence),
        )
    both = low is not None and high is not None
    if name == "empirical":
        of_values = empirical(sample.ordered)
        pp = Index(of_values.pp(low or 0.0, high or 0.0), (None, None)) if of_values and both else None
        ppk = Index(of_values.ppk(low, high), (None, None)) if of_values else None
        return Distribution(name, of_values, None, None), pp, ppk
    fitted: Fitted = {"log-normal": log_normal, "weibull": weibull}[name](sample.ordered)
    return (
        Distribution(name, fitted.percentiles, fitted.parameters, fitted.fit),
        fitted.index(lambda one: one.pp(low or 0.0, high or 0.0), confidence) if both else None,
        fitted.index(lambda one: one.ppk(low, high), confidence),
    )


def _normal(sample: _Sample) -> Distribution:
    mean, reach = sample.mean, 3 * sample.overall
    tested = sample.total is not None and len(sample.ordered) >= FEWEST
    fit = fits_normal(sample.ordered) if tested else None
    return Distribution("normal", Percentiles(mean - reach, mean, mean + reach), (mean, sample.overall), fit)


def _of_sample(sample: _Sample, values: Floats, size: int, is_normal: bool) -> Iterator[str]:
    left_out = sample.inner.left_out
    if left_out:
        yield f"the last {left_out} value(s) make no whole subgroup and are left out of the spread within"
    if sample.within is None or sample.total is None:
        yield "the values have no spread: the indices have no meaning"
        return
    if not is_normal:
        yield "cp and cpk suppose a normal distribution and are left out; pp and ppk go by percentiles"
    elif outside := _outside_control_limits(values, size):
        yield (
            f"{outside} point(s) of the control chart lie outside its limits: cp and cpk describe no stable process; "
            "pp and ppk describe these values"
        )


def _outside_control_limits(values: Floats, size: int) -> int:
    if len(values) < 2 * size:
        return 0
    kind = "individuals" if size == 1 else "mean_and_range"
    if size > LARGEST_BY_RANGE:
        kind = "mean_and_standard_deviation"
    return sum(len(signal.points) for signal in control_chart(values, kind, size, ["outside_limits"]).signals)


def _of_distribution(found: Distribution, sample: _Sample) -> Iterator[str]:
    if sample.total is None:
        return
    if found.percentiles is None:
        yield (
            f"the 0.135 % point of the values themselves needs {FEWEST_EMPIRICAL} values or more, some on either side "
            "of their median: no indices; name a distribution"
        )
    if found.name == "empirical":
        yield "no confidence interval is given for percentiles of the values themselves"
    elif found.fit is None:
        yield f"the distribution is tested from {FEWEST} values on"
    elif found.fit.rejected:
        step, _ = steps_of(sample.ordered)
        coarse = f"; the values stand in coarse steps of {step:g}, which the test takes for a departure"
        said = coarse if step > _COARSE * sample.overall else ""
        yield f"the values depart from a {found.name} distribution (Anderson-Darling, 5 %): mistrust the indices{said}"
