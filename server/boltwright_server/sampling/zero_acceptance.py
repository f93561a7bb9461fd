"""Plans that accept on no nonconforming piece, computed for one finite lot.

Hypergeometric distribution, exact: the smallest sample that keeps the consumer's risk at the limiting quality.
"""

from __future__ import annotations

import math
from decimal import Decimal

from ..standards import other_source
from .plan import DEFAULT_FRACTIONS, RiskPoint, SamplingPlan
from .probability import none_found
from .risks import operating_point


def zero_acceptance(
    lot_size: int,
    limiting_quality: Decimal,
    consumer_risk: Decimal,
    aql: Decimal | None = None,
    fractions: tuple[Decimal, ...] = (),
) -> SamplingPlan:
    """Return the smallest sample n with P(accept) <= `consumer_risk` at ceil(lot x quality) nonconforming pieces.

    `limiting_quality` and `consumer_risk` are fractions above 0 and below 1; `aql` is in percent.
    """
    nonconforming = math.ceil(lot_size * limiting_quality)
    n = _smallest(lot_size, nonconforming, float(consumer_risk))
    points = tuple(operating_point(fraction, None, n, 0, lot_size) for fraction in fractions or DEFAULT_FRACTIONS)
    producer = None
    if aql is not None:
        fraction = aql / 100
        producer = RiskPoint(float(fraction), 1.0 - none_found(lot_size, math.ceil(lot_size * fraction), n))
    return SamplingPlan(
        scheme="zero-acceptance",
        edition="-",
        lot_size=lot_size,
        sample_size=n,
        acceptance_number=0,
        rejection_number=1,
        operating_characteristic=points,
        producer_risk=producer,
        consumer_risk=RiskPoint(float(limiting_quality), none_found(lot_size, nonconforming, n)),
        basis=other_source("hypergeometric distribution", "acceptance number 0, finite lot"),
        notices=("The sample is the whole lot: inspect every piece.",) if n == lot_size else (),
    )


def _smallest(lot: int, nonconforming: int, risk: float) -> int:
    low, high = 1, lot
    while low < high:
        middle = (low + high) // 2
        if none_found(lot, nonconforming, middle) <= risk:
            high = middle
        else:
            low = middle + 1
    return low
