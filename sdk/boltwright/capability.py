"""POST /v1/capability: capability and performance indices of values in the order of production."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .decoding import Result
from .transport import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class Index:
    """An index with its two-sided confidence interval."""

    value: float
    confidence_interval: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Capability(Result):
    """Indices of a process; None where a limit or a spread is missing."""

    count: int
    mean: float
    standard_deviation_within: float | None
    standard_deviation_overall: float | None
    within_method: str
    cp: Index | None
    cpk: Index | None
    pp: Index | None
    ppk: Index | None
    notices: tuple[str, ...] = ()


def capability(
    connection: Connection,
    values: Sequence[float],
    *,
    min: float | None = None,
    max: float | None = None,
    designation: str | None = None,
    characteristic: str | None = None,
    unit: str | None = None,
    subgroup_size: int = 1,
) -> Capability:
    """Return Cp, Cpk, Pp and Ppk with confidence intervals.

    Args:
        values: in the order of production.
        min, max: the limits, in the unit of the values; or
        designation, characteristic: whose limits are taken.
        unit: of the values, where it is not the standard's.
        subgroup_size: pieces that were made together, 1 to 25.

    Raises:
        InvalidRequestError: too few values, or no limit. Others: see `boltwright.errors`.
    """
    body = {
        "values": list(values),
        "min": min,
        "max": max,
        "designation": designation,
        "characteristic": characteristic,
        "unit": unit,
        "subgroup_size": subgroup_size,
    }
    return connection.post(Capability, "/v1/capability", body)
