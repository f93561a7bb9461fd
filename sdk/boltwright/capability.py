"""POST /v1/capability: capability and performance indices of values in the order of production. It changes nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from typing import Unpack

from .decoding import Result
from .drawing import Drawing, LimitsToDraw
from .process_summary import capability_text
from .readings import written_values
from .transport import Connection
from .values import Basis, StatedLimits

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
        return capability_text(self)


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
