"""Sampling plans for acceptance inspection, with the risks that they carry."""

from .catalogue import SCHEMES, sampling_plan
from .plan import RiskPoint, SamplingPlan
from .probability import acceptance_binomial, acceptance_hypergeometric

__all__ = [
    "SCHEMES",
    "RiskPoint",
    "SamplingPlan",
    "acceptance_binomial",
    "acceptance_hypergeometric",
    "sampling_plan",
]
