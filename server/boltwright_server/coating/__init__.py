"""Coatings of threads: room, limits before and after, gauges, pairs, loads, hydrogen embrittlement."""

from .coating import Coating, electroplated, electroplated_by_code, hot_dip_galvanized, zinc_flake
from .limits import CoatingLimits, Fit, coating_limits
from .pairing import Pairing, check_mating, pairings
from .states import State

__all__ = [
    "Coating",
    "CoatingLimits",
    "Fit",
    "Pairing",
    "State",
    "check_mating",
    "coating_limits",
    "electroplated",
    "electroplated_by_code",
    "hot_dip_galvanized",
    "pairings",
    "zinc_flake",
]
