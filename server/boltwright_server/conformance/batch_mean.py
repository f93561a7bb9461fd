"""The batch average of a coating: the mean of the local readings unless it is given.

ISO 10684:2004 and ISO 4042:1999, Table 1, limit it beside the local thickness.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Context, Decimal

import numpy as np

from .readings import Column

LOCAL, MEAN = "coating_thickness", "coating_thickness_mean"
#: Digits of a sum of readings as written; a million of them keep all of theirs.
_EXACT = Context(prec=60)


@dataclass(slots=True)
class LocalReadings:
    """Sum and number of the local readings so far, as written."""

    total: Decimal = Decimal(0)
    count: int = 0

    def add(self, column: Column) -> None:
        """Add the readings of one block."""
        assert isinstance(column.values, np.ndarray)
        for value in column.values.tolist():
            if value == value:
                self.total = _EXACT.add(self.total, Decimal(repr(value)))
                self.count += 1

    def mean(self, first: Column, unit: str | None) -> Column | None:
        """Return the mean as a column of one reading, judged as the local ones are; None without any."""
        if not self.count:
            return None
        mean = float(_EXACT.divide(self.total, Decimal(self.count)))
        return Column(
            MEAN,
            np.array([mean]),
            unit,
            first.expanded_uncertainty,
            first.coverage_factor,
            first.decision_rule,
        )
