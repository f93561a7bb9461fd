"""POST /v1/capability: capability and performance indices of values in the order of production. It changes nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from .decoding import Result
from .readings import written_values
from .transport import Connection
from .values import Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Index:
    """An index with its confidence interval."""

    value: float
    confidence_interval: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CapabilityLimits:
    """The limits that the indices refer to; with a basis where they are a characteristic's."""

    min: float | None = None
    max: float | None = None
    unit: str | None = None
    basis: Basis | None = None


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
    limits: CapabilityLimits | None = None
    cp: Index | None = None
    cpk: Index | None = None
    pp: Index | None = None
    ppk: Index | None = None
    notices: tuple[str, ...] = ()


def capability(
    connection: Connection,
    values: Iterable[float | Decimal],
    *,
    min: float | Decimal | None = None,
    max: float | Decimal | None = None,
    designation: str | None = None,
    characteristic: str | None = None,
    unit: str | None = None,
    subgroup_size: int | None = None,
    confidence_level: float | None = None,
) -> Capability:
    """Return Cp, Cpk, Pp and Ppk with confidence intervals.

    Args:
        values: readings in the order of production.
        min, max: the limits, or
        designation, characteristic: the characteristic of a product whose limits count.
        unit: of the readings.
        subgroup_size: pieces in a subgroup; 1 takes moving ranges.
        confidence_level: of the intervals.

    Raises:
        InvalidRequestError: values or limits that cannot be used. ValueError: NaN or Infinity among the values.
    """
    body = {
        "values": written_values("values", values),
        "min": min,
        "max": max,
        "designation": designation,
        "characteristic": characteristic,
        "unit": unit,
        "subgroup_size": subgroup_size,
        "confidence_level": confidence_level,
    }
    return connection.post(Capability, "/v1/capability", body)
