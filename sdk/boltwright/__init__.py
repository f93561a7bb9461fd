"""Boltwright's SDK: limits of threaded fasteners, and judgement of readings, from a running service.

The figures support, and do not replace, the current edition of the standard, the purchase order, local codes and the
judgement of a qualified person.
"""

from .capability import Capability
from .client import Client
from .coating_limits import CoatingLimits
from .conformance import Conformance
from .conformance_replay import ConformanceReplay
from .control_chart import ControlChart
from .derivation import Step
from .drawing import Drawing
from .equivalents import Equivalents
from .errors import Error, ProblemError, TransportError
from .floor import (
    LimitsRefused,
    LimitsStore,
    ModbusWriter,
    check_image,
    decide_pieces,
    encode_image,
    public_key_id,
    sign_limits,
)
from .gauge_sizes import GaugeSizes
from .gauge_sizes_check import GaugeConditions, MeasuredGauge
from .hardness_conversion import HardnessConversion
from .histogram import Histogram
from .lot_readings import Readings
from .mechanical_minimums import MechanicalMinimums
from .narrow_limits import NarrowLimits
from .pairing import Pairing
from .piece_decision import PieceDecision
from .product_dimensions import ProductDimensions
from .readings import Column
from .sampling_plan import SamplingPlan
from .sampling_plan_switching import Switching
from .set_points import SetPoints
from .specification import Specification
from .standards import Standards
from .state_limits import StateLimits
from .thread_fit import ThreadFit
from .thread_limits import ThreadLimits
from .threads import Threads
from .tolerance_classes import ToleranceClasses
from .transport import __version__
from .trend import Trend
from .units import Units
from .values import Basis, Bounds

__all__ = [
    "Basis",
    "Bounds",
    "Capability",
    "Client",
    "CoatingLimits",
    "Column",
    "Conformance",
    "ConformanceReplay",
    "ControlChart",
    "Drawing",
    "Equivalents",
    "Error",
    "GaugeConditions",
    "GaugeSizes",
    "HardnessConversion",
    "Histogram",
    "LimitsRefused",
    "LimitsStore",
    "MeasuredGauge",
    "MechanicalMinimums",
    "ModbusWriter",
    "NarrowLimits",
    "Pairing",
    "PieceDecision",
    "ProblemError",
    "ProductDimensions",
    "Readings",
    "SamplingPlan",
    "SetPoints",
    "Specification",
    "Standards",
    "StateLimits",
    "Step",
    "Switching",
    "ThreadFit",
    "ThreadLimits",
    "Threads",
    "ToleranceClasses",
    "TransportError",
    "Trend",
    "Units",
    "__version__",
    "check_image",
    "decide_pieces",
    "encode_image",
    "public_key_id",
    "sign_limits",
]
