"""What a reading is found to be: the one place where readings are compared with limits, for one and for many."""

from __future__ import annotations

from typing import Any, overload

import numpy as np
import numpy.typing as npt

from .column_plan import ColumnPlan
from .gates import Gate
from .readings import Floats

Mask = npt.NDArray[np.bool_]


@overload
def findings(plan: ColumnPlan, readings: float, gate: Gate | None = None) -> tuple[bool, bool, bool]: ...
@overload
def findings(plan: ColumnPlan, readings: Floats, gate: Gate | None = None) -> tuple[Mask, Mask, Mask]: ...
def findings(plan: ColumnPlan, readings: Any, gate: Gate | None = None) -> Any:
    """Return whether readings were measured, are nonconforming, are undecided.

    NaN, a piece that was not measured, compares false everywhere and so is none of the three. `gate` is that of the
    plan unless another is given.
    """
    gate = gate or plan.gate
    assert gate is not None
    measured = readings == readings
    if not plan.decidable:
        return measured, measured & False, measured
    nonconforming = (readings <= gate.reject_up_to) | (readings >= gate.reject_from)
    conforming = (readings >= gate.conforming_from) & (readings <= gate.conforming_up_to)
    return measured, nonconforming, measured ^ (nonconforming | conforming)
