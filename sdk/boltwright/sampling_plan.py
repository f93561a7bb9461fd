"""GET /v1/sampling-plan: sample size, acceptance number and the risks of a plan."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from .decoding import Result
from .transport import Connection
from .values import Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Risk:
    """A risk at a fraction nonconforming, both from 0 to 1."""

    at: float
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OperatingPoint:
    """Probability of acceptance at a fraction nonconforming."""

    fraction_nonconforming: float
    acceptance_probability: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplingPlan(Result):
    """A plan for one lot."""

    scheme: str
    edition: str
    sample_size: int
    acceptance_number: int
    rejection_number: int
    basis: Basis
    code_letter: str | None = None
    producer_risk: Risk | None = None
    consumer_risk: Risk | None = None
    operating_characteristic: tuple[OperatingPoint, ...] = ()
    notices: tuple[str, ...] = ()


def sampling_plan(
    connection: Connection,
    scheme: str,
    lot_size: int,
    *,
    aql: float | None = None,
    level: str | None = None,
    severity: str | None = None,
    group: str | None = None,
    edition: str | None = None,
    limiting_quality: float | None = None,
    consumer_risk: float | None = None,
    fractions: Sequence[float] | None = None,
) -> SamplingPlan:
    """Return a plan of ISO 2859-1, ISO 3269 or a computed zero-acceptance plan.

    Args:
        scheme: `ISO 2859-1`, `ISO 3269` or `zero-acceptance`.
        lot_size: pieces in the lot.
        aql: in percent. level, severity: of ISO 2859-1. group, edition: of ISO 3269.
        limiting_quality, consumer_risk: fractions, of zero-acceptance.
        fractions: fractions nonconforming at which the operating characteristic is wanted.

    Raises:
        InvalidRequestError: the scheme has no such plan. Others: see `boltwright.errors`.
    """
    return connection.get(
        SamplingPlan,
        "/v1/sampling-plan",
        scheme=scheme,
        lot_size=lot_size,
        aql=aql,
        level=level,
        severity=severity,
        group=group,
        edition=edition,
        limiting_quality=limiting_quality,
        consumer_risk=consumer_risk,
        fractions=None if fractions is None else ",".join(str(one) for one in fractions),
    )
