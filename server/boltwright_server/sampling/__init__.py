"""Sampling plans for acceptance inspection, with the risks that they carry."""

from .catalogue import SCHEMES, sampling_plan
from .plan import RiskPoint, SamplingPlan
from .probability import acceptance_binomial, acceptance_hypergeometric
from .switching import InspectedLot, Step, switching

__all__ = [
    "SCHEMES",
    "InspectedLot",
    "RiskPoint",
    "SamplingPlan",
    "Step",
    "acceptance_binomial",
    "acceptance_hypergeometric",
    "sampling_plan",
    "switching",
]
