"""Judges columns of yes-or-no results and of words. No guard band applies to them."""

from __future__ import annotations

import numpy as np

from ..specification import Characteristic
from .measured import Outcome
from .readings import Column


def judge_attribute(characteristic: Characteristic, column: Column) -> Outcome:
    """Judge true / false (the requirement is met / is not) or words against those allowed."""
    values = list(column.values)
    measured = column.measured_mask()
    allowed = set(characteristic.allowed)
    fails = np.array([value is not None and value not in allowed for value in values], dtype=bool)
    return Outcome(
        characteristic.bounds,
        None,
        None,
        fails,
        np.zeros(len(values), dtype=bool),
        measured,
        characteristic.basis,
    )
