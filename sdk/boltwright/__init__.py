"""Boltwright's SDK: limits of threaded fasteners, and judgement of readings, from a running service.

The figures support, and do not replace, the current edition of the standard, the purchase order, local codes and the
judgement of a qualified person.
"""

from .client import Client
from .conformance import Column, Conformance
from .errors import Error, ProblemError, TransportError
from .gauge_sizes import GaugeSizes
from .gauge_sizes_check import GaugeConditions, MeasuredGauge
from .hardness_conversion import HardnessConversion
from .mechanical_minimums import MechanicalMinimums
from .pairing import Pairing
from .product_dimensions import ProductDimensions
from .specification import Specification
from .standards import Standards
from .thread_limits import ThreadLimits
from .transport import __version__
from .units import Units
from .values import Basis, Bounds

__all__ = [
    "Basis",
    "Bounds",
    "Client",
    "Column",
    "Conformance",
    "Error",
    "GaugeConditions",
    "GaugeSizes",
    "HardnessConversion",
    "MeasuredGauge",
    "MechanicalMinimums",
    "Pairing",
    "ProblemError",
    "ProductDimensions",
    "Specification",
    "Standards",
    "ThreadLimits",
    "TransportError",
    "Units",
    "__version__",
]
