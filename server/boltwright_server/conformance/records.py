"""With what and when a characteristic was measured: recorded with the verdict, never part of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from .readings import Column


@dataclass(slots=True)
class Record:
    """Instruments of a characteristic, and the first and last time at which it was measured."""

    instruments: set[str] = field(default_factory=set)
    measured_from: datetime | None = None
    measured_until: datetime | None = None

    def add(self, column: Column) -> None:
        """Add what a column says of its readings, as a whole or one by one."""
        instruments = column.instrument if isinstance(column.instrument, tuple) else (column.instrument,)
        self.instruments.update(one for one in instruments if one is not None)
        times = column.measured_at if isinstance(column.measured_at, tuple) else (column.measured_at,)
        for time in times:
            if time is not None:
                self.measured_from = min(time, self.measured_from or time)
                self.measured_until = max(time, self.measured_until or time)


def is_recorded(column: Column) -> bool:
    """Return whether a column says anything of instrument or time."""
    return column.instrument is not None or column.measured_at is not None
