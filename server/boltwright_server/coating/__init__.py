"""Coatings of threads: room, limits before and after, gauges, pairs, loads, hydrogen embrittlement."""

from .coating import Coating, electroplated, electroplated_by_code, hot_dip_galvanized, zinc_flake
from .metric import class_not_galvanized, thread_not_galvanized
from .pairing import Pairing, check_mating, pairings
from .result import CoatingLimits, Fit
from .states import State
from .systems import coating_limits

__all__ = [
    "Coating",
    "CoatingLimits",
    "Fit",
    "Pairing",
    "State",
    "check_mating",
    "class_not_galvanized",
    "coating_limits",
    "electroplated",
    "electroplated_by_code",
    "hot_dip_galvanized",
    "pairings",
    "thread_not_galvanized",
    "zinc_flake",
]
