"""GET /v1/sampling-plan: sample size, acceptance number and the risks of a plan."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..decoding import Result
from ..transport import Connection, flag
from ..values import Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Risk:
    """The probability `value` of the wrong decision at the fraction nonconforming `at`."""

    at: float
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OperatingPoint:
    """One point of the operating characteristic; the finite probability is that of this lot."""

    fraction_nonconforming: float
    acceptance_probability: float
    average_outgoing_fraction: float | None = None
    finite_lot_acceptance_probability: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondSample:
    """A second sample that the scheme allows."""

    sample_size: int
    rule: str = ""
    consumer_risk: Risk | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplingPlan(Result):
    """A plan: accept with at most `acceptance_number` nonconforming pieces, reject from `rejection_number` on."""

    scheme: str
    edition: str
    lot_size: int
    code_letter: str | None = None
    letter_used: str | None = None
    sample_size: int
    acceptance_number: int
    rejection_number: int
    second_sample: SecondSample | None = None
    producer_risk: Risk | None = None
    consumer_risk: Risk | None = None
    operating_characteristic: tuple[OperatingPoint, ...] = ()
    basis: Basis
    notices: tuple[str, ...] = ()


def sampling_plan(
    connection: Connection,
    scheme: str,
    lot_size: int,
    *,
    level: str | None = None,
    severity: str | None = None,
    aql: float | None = None,
    group: str | None = None,
    category: int | None = None,
    edition: str | None = None,
    second_sample: bool | None = None,
    acceptance_number: int | None = None,
    limiting_quality: float | None = None,
    consumer_risk: float | None = None,
    fractions: Iterable[float] | None = None,
) -> SamplingPlan:
    """Return a plan of `ISO 2859-1`, `ISO 3269` or `zero-acceptance`.

    Args:
        scheme: which of them.
        lot_size: pieces in the lot.
        level, severity, aql: of ISO 2859-1; the AQL in percent.
        group, category, edition, second_sample, acceptance_number: of ISO 3269.
        limiting_quality, consumer_risk: of zero-acceptance, as fractions.
        fractions: fractions nonconforming at which the operating characteristic is wanted.

    Raises:
        NotStandardisedError: the tables give no plan. Others: see `boltwright.errors`.
    """
    return connection.get(
        SamplingPlan,
        "/v1/sampling-plan",
        scheme=scheme,
        lot_size=lot_size,
        level=level,
        severity=severity,
        aql=aql,
        group=group,
        category=category,
        edition=edition,
        second_sample=flag(second_sample),
        acceptance_number=acceptance_number,
        limiting_quality=limiting_quality,
        consumer_risk=consumer_risk,
        fractions=None if fractions is None else ",".join(map(str, fractions)),
    )
