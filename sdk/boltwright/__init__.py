"""Boltwright's SDK: limits of threaded fasteners, and judgement of readings, from a running service.

The figures support, and do not replace, the current edition of the standard, the purchase order, local codes and the
judgement of a qualified person.
"""

from .client import Client
from .conformance.conformance import Conformance
from .conformance.conformance_replay import ConformanceReplay
from .conformance.lot_readings import Readings
from .drawing import Drawing
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
from .look_ups.coating_limits import CoatingLimits
from .look_ups.derivation import Step
from .look_ups.equivalents import Equivalents
from .look_ups.gauge_sizes import GaugeSizes
from .look_ups.gauge_sizes_check import GaugeConditions, MeasuredGauge
from .look_ups.hardness_conversion import HardnessConversion
from .look_ups.mechanical_minimums import MechanicalMinimums
from .look_ups.pairing import Pairing
from .look_ups.product_dimensions import ProductDimensions
from .look_ups.sampling_plan import SamplingPlan
from .look_ups.sampling_plan_switching import Switching
from .look_ups.specification import Specification
from .look_ups.standards import Standards
from .look_ups.thread_fit import ThreadFit
from .look_ups.thread_limits import ThreadLimits
from .look_ups.threads import Threads
from .look_ups.tolerance_classes import ToleranceClasses
from .look_ups.units import Units
from .readings import Column
from .stations.piece_decision import PieceDecision
from .stations.set_points import SetPoints
from .stations.state_limits import StateLimits
from .statistics.capability import Capability
from .statistics.control_chart import ControlChart
from .statistics.histogram import Histogram
from .statistics.narrow_limits import NarrowLimits
from .statistics.trend import Trend
from .transport import __version__
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
