"""Operating characteristic and risks of a single plan by the binomial distribution."""

from __future__ import annotations

import math
from decimal import Decimal

from .plan import DEFAULT_FRACTIONS, OperatingPoint, RiskPoint
from .probability import acceptance_binomial, acceptance_hypergeometric, fraction_at

CONSUMER_PROBABILITY = 0.10


def binomial_characteristic(
    lot_size: int, n: int, acceptance: int, fractions: tuple[Decimal, ...]
) -> tuple[OperatingPoint, ...]:
    """Return the operating characteristic at the fractions asked for, or at a default series."""
    return tuple(
        operating_point(fraction, acceptance_binomial(n, acceptance, float(fraction)), n, acceptance, lot_size)
        for fraction in fractions or DEFAULT_FRACTIONS
    )


def characteristic_of_two(
    lot_size: int, first: int, second: int, fractions: tuple[Decimal, ...]
) -> tuple[OperatingPoint, ...]:
    """Return the operating characteristic of two samples: none in the first, or one and none in the second."""
    return tuple(_point_of_two(fraction, lot_size, first, second) for fraction in fractions or DEFAULT_FRACTIONS)


def _point_of_two(fraction: Decimal, lot_size: int, first: int, second: int) -> OperatingPoint:
    """Return one point; where the second sample is taken, its pieces are no longer in the lot as it goes out.

    Outgoing fraction: rejected lots sorted, an accepted lot with the first sample alone or both of them taken out.
    """
    share, bad = float(fraction), math.ceil(lot_size * fraction)
    none, one = (acceptance_binomial(first, found, share) for found in (0, 1))
    after = (one - none) * acceptance_binomial(second, 0, share)
    none_of_lot, one_of_lot = (acceptance_hypergeometric(lot_size, bad, first, found) for found in (0, 1))
    left, second_taken = lot_size - first, min(second, lot_size - first)
    of_lot = none_of_lot
    if bad and left:
        of_lot += (one_of_lot - none_of_lot) * acceptance_hypergeometric(left, bad - 1, second_taken)
    outgoing = share * (none * left + after * (left - second_taken)) / lot_size
    return OperatingPoint(share, none + after, outgoing, of_lot)


def operating_point(
    fraction: Decimal, probability: float | None, n: int, acceptance: int, lot_size: int
) -> OperatingPoint:
    """Return one point; outgoing fraction = p * Pa * (N - n) / N, rejected lots sorted.

    `probability` None takes that of the finite lot.
    """
    nonconforming = math.ceil(lot_size * fraction)
    of_lot = acceptance_hypergeometric(lot_size, nonconforming, n, acceptance)
    accepted = of_lot if probability is None else probability
    return OperatingPoint(float(fraction), accepted, float(fraction) * accepted * (lot_size - n) / lot_size, of_lot)


def producer_point(n: int, acceptance: int, fraction: float) -> RiskPoint:
    """Return the risk that a lot of the given quality is rejected."""
    return RiskPoint(fraction, 1.0 - acceptance_binomial(n, acceptance, fraction))


def consumer_point_of_two(first: int, second: int) -> RiskPoint:
    """Return the quality accepted with 10 percent by two samples: none in the first, or one and none in the second."""

    def accepts(fraction: float) -> float:
        none, one = (acceptance_binomial(first, found, fraction) for found in (0, 1))
        return none + (one - none) * acceptance_binomial(second, 0, fraction)

    return RiskPoint(fraction_at(CONSUMER_PROBABILITY, accepts), CONSUMER_PROBABILITY)


def consumer_point(n: int, acceptance: int) -> RiskPoint:
    """Return the quality that is still accepted with a probability of 10 percent."""
    at = fraction_at(CONSUMER_PROBABILITY, lambda fraction: acceptance_binomial(n, acceptance, fraction))
    return RiskPoint(at, CONSUMER_PROBABILITY)
