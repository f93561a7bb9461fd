"""Boltwright's SDK: limits of threaded fasteners, and judgement of readings, from a running service.

The figures support, and do not replace, the current edition of the standard, the purchase order, local codes and the
judgement of a qualified person.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .client import Client as Client
    from .conformance.conformance import Conformance as Conformance
    from .conformance.conformance_replay import ConformanceReplay as ConformanceReplay
    from .conformance.lot_readings import Readings as Readings
    from .drawing import Drawing as Drawing
    from .errors import Error as Error
    from .errors import ProblemError as ProblemError
    from .errors import TransportError as TransportError
    from .floor import LimitsRefused as LimitsRefused
    from .floor import LimitsStore as LimitsStore
    from .floor import ModbusWriter as ModbusWriter
    from .floor import OpcUaWriter as OpcUaWriter
    from .floor import check_image as check_image
    from .floor import decide_pieces as decide_pieces
    from .floor import encode_image as encode_image
    from .floor import public_key_id as public_key_id
    from .floor import sign_limits as sign_limits
    from .look_ups.coating_limits import CoatingLimits as CoatingLimits
    from .look_ups.derivation import Step as Step
    from .look_ups.equivalents import Equivalents as Equivalents
    from .look_ups.gauge_sizes import GaugeSizes as GaugeSizes
    from .look_ups.gauge_sizes_check import GaugeConditions as GaugeConditions
    from .look_ups.gauge_sizes_check import MeasuredGauge as MeasuredGauge
    from .look_ups.hardness_conversion import HardnessConversion as HardnessConversion
    from .look_ups.mechanical_minimums import MechanicalMinimums as MechanicalMinimums
    from .look_ups.pairing import Pairing as Pairing
    from .look_ups.product_dimensions import ProductDimensions as ProductDimensions
    from .look_ups.sampling_plan import SamplingPlan as SamplingPlan
    from .look_ups.sampling_plan_switching import Switching as Switching
    from .look_ups.specification import Specification as Specification
    from .look_ups.standards import Standards as Standards
    from .look_ups.thread_fit import ThreadFit as ThreadFit
    from .look_ups.thread_limits import ThreadLimits as ThreadLimits
    from .look_ups.threads import Threads as Threads
    from .look_ups.tolerance_classes import ToleranceClasses as ToleranceClasses
    from .look_ups.units import Units as Units
    from .readings import Column as Column
    from .stations.piece_decision import PieceDecision as PieceDecision
    from .stations.set_points import SetPoints as SetPoints
    from .stations.state_limits import StateLimits as StateLimits
    from .statistics.capability import Capability as Capability
    from .statistics.control_chart import ControlChart as ControlChart
    from .statistics.histogram import Histogram as Histogram
    from .statistics.narrow_limits import NarrowLimits as NarrowLimits
    from .statistics.trend import Trend as Trend
    from .values import Basis as Basis
    from .values import Bounds as Bounds
    from .version import __version__ as __version__

#: Where each name is at home. It is imported when it is asked for: the command waits for nothing that it does not use.
_HOMES = {
    "__version__": ".version",
    "Basis": ".values",
    "Bounds": ".values",
    "Capability": ".statistics.capability",
    "Client": ".client",
    "CoatingLimits": ".look_ups.coating_limits",
    "Column": ".readings",
    "Conformance": ".conformance.conformance",
    "ConformanceReplay": ".conformance.conformance_replay",
    "ControlChart": ".statistics.control_chart",
    "Drawing": ".drawing",
    "Equivalents": ".look_ups.equivalents",
    "Error": ".errors",
    "GaugeConditions": ".look_ups.gauge_sizes_check",
    "GaugeSizes": ".look_ups.gauge_sizes",
    "HardnessConversion": ".look_ups.hardness_conversion",
    "Histogram": ".statistics.histogram",
    "LimitsRefused": ".floor",
    "LimitsStore": ".floor",
    "MeasuredGauge": ".look_ups.gauge_sizes_check",
    "MechanicalMinimums": ".look_ups.mechanical_minimums",
    "ModbusWriter": ".floor",
    "OpcUaWriter": ".floor",
    "NarrowLimits": ".statistics.narrow_limits",
    "Pairing": ".look_ups.pairing",
    "PieceDecision": ".stations.piece_decision",
    "ProblemError": ".errors",
    "ProductDimensions": ".look_ups.product_dimensions",
    "Readings": ".conformance.lot_readings",
    "SamplingPlan": ".look_ups.sampling_plan",
    "SetPoints": ".stations.set_points",
    "Specification": ".look_ups.specification",
    "Standards": ".look_ups.standards",
    "StateLimits": ".stations.state_limits",
    "Step": ".look_ups.derivation",
    "Switching": ".look_ups.sampling_plan_switching",
    "ThreadFit": ".look_ups.thread_fit",
    "ThreadLimits": ".look_ups.thread_limits",
    "Threads": ".look_ups.threads",
    "ToleranceClasses": ".look_ups.tolerance_classes",
    "TransportError": ".errors",
    "Trend": ".statistics.trend",
    "Units": ".look_ups.units",
    "check_image": ".floor",
    "decide_pieces": ".floor",
    "encode_image": ".floor",
    "public_key_id": ".floor",
    "sign_limits": ".floor",
}
__all__ = list(_HOMES)


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = globals()[name] = getattr(import_module(_HOMES[name], __name__), name)
    return found


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
