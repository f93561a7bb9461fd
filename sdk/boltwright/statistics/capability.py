"""POST /v1/capability: capability and performance indices of values in the order of production. It changes nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Unpack

from ..decoding import Result
from ..drawing import Drawing, LimitsToDraw
from ..readings import written_values
from ..tables import Cell, aligned, figure, listed, sections
from ..transport import Connection
from ..values import Basis, StatedLimits

_PATH = "/v1/capability"


@dataclass(frozen=True, slots=True, kw_only=True)
class Index:
    """An index with its confidence interval, whose ends are None where none can be given."""

    value: float
    confidence_interval: tuple[float | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Whether the values may come from the distribution; `p_value` is None where only the 5 % point is tabulated."""

    test: str
    statistic: float
    adjusted_statistic: float
    p_value: float | None = None
    significance: float
    rejected: bool
    basis: Basis | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Percentiles:
    """0.135 %, 50 % and 99.865 % of the distribution, in the unit of the values."""

    lower: float
    median: float
    upper: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Distribution:
    """What Pp and Ppk suppose. `fit` is None for few values, and for the percentiles of the values themselves."""

    name: str
    parameters: tuple[float, ...] | None = None
    percentiles: Percentiles | None = None
    fit: Fit | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedNonconforming:
    """Shares of the distribution beyond each limit; None where there is no limit, or no distribution."""

    below_min: float | None = None
    above_max: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Capability(Result):
    """Indices of a process; one that makes no sense, as Cp with one limit, is None."""

    count: int
    mean: float
    standard_deviation_within: float | None = None
    standard_deviation_overall: float | None = None
    within_method: str = ""
    subgroup_size: int = 1
    confidence_level: float = 0.95
    limits: StatedLimits | None = None
    cp: Index | None = None
    cpk: Index | None = None
    pp: Index | None = None
    ppk: Index | None = None
    distribution: Distribution | None = None
    expected_nonconforming: ExpectedNonconforming | None = None
    basis: Basis | None = None
    notices: tuple[str, ...] = ()

    def summary(self) -> str:
        """Return mean, spread, indices, distribution and notices as aligned text."""
        return _text(self)


def _text(found: Capability) -> str:
    named = (("Cp", found.cp), ("Cpk", found.cpk), ("Pp", found.pp), ("Ppk", found.ppk))
    rows: list[tuple[Cell, ...]] = [("values", str(found.count), ""), ("mean", figure(found.mean), "")]
    rows.append(("standard deviation", figure(found.standard_deviation_overall), "of all values"))
    rows.append(("", figure(found.standard_deviation_within), f"within subgroups: {found.within_method}"))
    rows += [(name, f"{index.value:.2f}", _interval(index)) for name, index in named if index is not None]
    confidence = f"Intervals at {100 * found.confidence_level:g} %." if any(index for _, index in named) else ""
    supposed = " ".join(part for part in (confidence, _distribution(found), _expected(found)) if part)
    return sections(_limits(found), aligned(rows), supposed, ("To note", listed(found.notices)))


def _expected(found: Capability) -> str:
    one = found.expected_nonconforming
    shares = [] if one is None else [share for share in (one.below_min, one.above_max) if share is not None]
    return f"Share beyond the limits: {100 * sum(shares):.3g} %." if shares else ""


def _limits(found: Capability) -> str:
    limits = found.limits
    if limits is None:
        return "Capability"
    low, high = (None if end is None else f"{end:g}" for end in (limits.min, limits.max))
    said = f"at most {high}" if low is None else f"at least {low}" if high is None else f"{low} to {high}"
    return f"Capability against {said} {limits.unit or ''}".rstrip()


def _interval(index: Index) -> str:
    low, high = index.confidence_interval
    return "" if low is None or high is None else f"{low:.2f} to {high:.2f}"


def _distribution(found: Capability) -> str:
    one = found.distribution
    if one is None:
        return ""
    fit = one.fit
    if fit is None:
        return f"Distribution: {one.name}, not tested."
    p_value = "" if fit.p_value is None else f", p = {fit.p_value:.3g}"
    verdict = "rejected" if fit.rejected else "not rejected"
    return f"Distribution: {one.name}, {verdict} by the {fit.test} test{p_value}."


def capability(
    connection: Connection,
    values: Iterable[float | Decimal],
    *,
    min: float | Decimal | None = None,
    max: float | Decimal | None = None,
    limits_unit: str | None = None,
    designation: str | None = None,
    characteristic: str | None = None,
    unit: str | None = None,
    subgroup_size: int | None = None,
    confidence_level: float | None = None,
    distribution: str | None = None,
) -> Capability:
    """Return Cp, Cpk, Pp and Ppk with confidence intervals.

    Args:
        values: readings in the order of production.
        min, max: the limits, in `limits_unit` where that is not the unit of the readings, or
        designation, characteristic: the characteristic of a product whose limits count.
        unit: of the readings.
        subgroup_size: pieces in a subgroup; 1 takes moving ranges.
        confidence_level: of the intervals.
        distribution: normal (default), log-normal, weibull, or empirical for the percentiles of the values themselves.

    Raises:
        InvalidRequestError: values or limits that cannot be used. ValueError: NaN or Infinity among the values.
    """
    body = {
        "values": written_values("values", values),
        "min": min,
        "max": max,
        "limits_unit": limits_unit,
        "designation": designation,
        "characteristic": characteristic,
        "unit": unit,
        "subgroup_size": subgroup_size,
        "confidence_level": confidence_level,
        "distribution": distribution,
    }
    return connection.post(Capability, _PATH, body)


def capability_drawing(
    connection: Connection,
    values: Iterable[float | Decimal],
    *,
    subgroup_size: int | None = None,
    confidence_level: float | None = None,
    distribution: str | None = None,
    **limits: Unpack[LimitsToDraw],
) -> Drawing:
    """Return the histogram of the values with limits, mean and the indices of `capability`, which takes the same.

    Raises:
        InvalidRequestError: values or limits that cannot be used. ValueError: NaN or Infinity among the values.
    """
    body = {
        "values": written_values("values", values),
        "subgroup_size": subgroup_size,
        "confidence_level": confidence_level,
        "distribution": distribution,
    }
    return connection.post_for_drawing(_PATH, {**body, **limits})
