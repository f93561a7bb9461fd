"""Probabilities behind a verdict: conformance probability of each reading, specific and global risks.

JCGM 106:2012 (formulas from memory, checked by its published example): normal measurement error, normal process.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from statistics import NormalDist

import numpy as np

from .decide import Outcome
from .readings import Column, Floats
from .rules import Regions

_CDF = np.frompyfunc(NormalDist().cdf, 1, 1)
#: The process is summed over that many standard deviations to both sides, in that many steps.
_REACH, _STEPS = 8.0, 4001
#: So many readings have their probability listed one by one.
MOST_LISTED = 1000


@dataclass(frozen=True, slots=True)
class Risks:
    """Probabilities from 0 to 1; None where there is nothing to speak of (no accepted or no refused reading)."""

    least_conformance_probability: float
    greatest_specific_consumer_risk: float | None
    greatest_specific_producer_risk: float | None
    global_consumer_risk: float | None
    global_producer_risk: float | None
    #: P(conforms) of the first readings in their order; None where a piece was not measured.
    conformance_probabilities: tuple[float | None, ...] = ()


def conformance_probability(values: Floats, low: float | None, high: float | None, u: float) -> Floats:
    """Return P(true value within the limits) for each reading with standard uncertainty `u` > 0."""
    upper = _cdf((high - values) / u) if high is not None else np.ones_like(values)
    lower = _cdf((low - values) / u) if low is not None else np.zeros_like(values)
    difference: Floats = upper - lower
    return np.maximum(difference, 0.0)


def risks(
    values: Floats,
    accepted: np.ndarray,
    limits: tuple[float | None, float | None],
    acceptance: tuple[float | None, float | None],
    u: float,
) -> Risks:
    """Return the risks of a column; the process behind the global ones has the readings' mean and spread."""
    low, high = limits
    probability = conformance_probability(values, low, high, u)
    consumer = (1 - probability[accepted]).max() if accepted.any() else None
    producer = probability[~accepted].max() if (~accepted).any() else None
    total_consumer = total_producer = None
    spread = float(np.sort(values).std(ddof=1)) if len(values) > 1 else 0.0
    if spread > u:
        # What is seen is process and measurement together.
        process = float(np.sqrt(spread**2 - u**2))
        total_consumer, total_producer = global_risks(float(np.sort(values).mean()), process, limits, acceptance, u)
    return Risks(
        float(probability.min()),
        None if consumer is None else float(consumer),
        None if producer is None else float(producer),
        total_consumer,
        total_producer,
    )


def global_risks(
    mean: float,
    process: float,
    limits: tuple[float | None, float | None],
    acceptance: tuple[float | None, float | None],
    u: float,
) -> tuple[float, float]:
    """Return P(bad and accepted) and P(good and refused) for a normal process measured with `u`."""
    low = max(limits[0] if limits[0] is not None else -np.inf, mean - _REACH * process)
    high = min(limits[1] if limits[1] is not None else np.inf, mean + _REACH * process)
    good = NormalDist(mean, process).cdf(high) - NormalDist(mean, process).cdf(low)
    seen = float(conformance_probability(np.array([mean]), *acceptance, float(np.hypot(process, u)))[0])
    if low >= high:
        return seen, 0.0
    true = np.linspace(low, high, _STEPS)
    density = np.exp(-(((true - mean) / process) ** 2) / 2) / (process * np.sqrt(2 * np.pi))
    both = float(np.trapezoid(density * conformance_probability(true, *acceptance, u), true))
    return max(0.0, seen - both), max(0.0, good - both)


def risks_of(column: Column, outcome: Outcome) -> Risks | None:
    """Return the risks of a judged column, or None without uncertainty, limits or readings."""
    u, plan = column.standard_uncertainty, outcome.plan
    found = plan.regions
    if not u or found is None or not isinstance(column.values, np.ndarray):
        return None
    values, measured = column.values, outcome.measured
    if not measured.any() or plan.doubles == (None, None):
        return None
    accepted = (measured & ~outcome.nonconforming & ~outcome.undecided)[measured]
    whole = risks(values[measured], accepted, plan.doubles, _acceptance(found), float(u))
    listed = conformance_probability(values[:MOST_LISTED], *plan.doubles, float(u))
    return replace(whole, conformance_probabilities=tuple(None if one != one else float(one) for one in listed))


def _acceptance(found: Regions) -> tuple[float | None, float | None]:
    """Return the ends of what is accepted; where nothing can be, an interval that nothing falls into."""
    if not found.attainable:
        return np.inf, -np.inf
    low, high = found.conforming_low, found.conforming_high
    return None if low is None else float(low.at), None if high is None else float(high.at)


def _cdf(x: Floats) -> Floats:
    return np.asarray(_CDF(x), dtype=np.float64)
