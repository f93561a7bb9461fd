"""Judges yes-or-no results and words. No guard band applies to them."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from .column_plan import ColumnPlan
from .measured import Outcome
from .readings import Column


def judge_attribute(plan: ColumnPlan, column: Column) -> Outcome:
    """Judge true / false (the requirement is met / is not) or words against those allowed."""
    fails = np.array(refused(plan, list(column.values)), dtype=np.bool_)
    return Outcome(plan, fails, np.zeros_like(fails), column.measured_mask())


def refused(plan: ColumnPlan, values: Sequence[object]) -> list[bool]:
    """Return which results are not among those allowed; None, a piece that was not tested, is not refused."""
    allowed = plan.characteristic.allowed
    return [value is not None and value not in allowed for value in values]
