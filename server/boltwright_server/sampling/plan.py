"""What every sampling scheme answers with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis

#: Fractions nonconforming at which the operating characteristic is given when none are asked for.
DEFAULT_FRACTIONS = tuple(
    Decimal(text)
    for text in (
        "0.001",
        "0.0025",
        "0.005",
        "0.01",
        "0.015",
        "0.02",
        "0.03",
        "0.05",
        "0.08",
        "0.1",
        "0.15",
        "0.2",
        "0.3",
    )
)


@dataclass(frozen=True, slots=True)
class RiskPoint:
    """A risk at a fraction nonconforming, both from 0 to 1."""

    at: float
    value: float


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """Probability of acceptance, and average outgoing fraction when rejected lots are sorted, at a fraction.

    The last is of this lot, with the fraction's number of nonconforming pieces, rounded up, among its pieces.
    """

    fraction_nonconforming: float
    acceptance_probability: float
    average_outgoing_fraction: float
    finite_lot_acceptance_probability: float


@dataclass(frozen=True, slots=True)
class SecondSample:
    """A second sample that the scheme allows after one nonconforming piece in the first."""

    sample_size: int
    rule: str
    #: Quality that is accepted with 10 percent where the second sample is taken.
    consumer_risk: RiskPoint


@dataclass(frozen=True, slots=True)
class SamplingPlan:
    """A plan for one lot. `code_letter` is the letter of the lot, `letter_used` the one the arrows lead to."""

    scheme: str
    edition: str
    lot_size: int
    sample_size: int
    acceptance_number: int
    rejection_number: int
    operating_characteristic: Sequence[OperatingPoint]
    producer_risk: RiskPoint | None
    consumer_risk: RiskPoint | None
    basis: Basis
    code_letter: str | None = None
    letter_used: str | None = None
    second_sample: SecondSample | None = None
    notices: tuple[str, ...] = ()
