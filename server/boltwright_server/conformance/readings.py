"""What is judged: columns of readings (index = piece) and what the purchaser asks beside the standard."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from decimal import Decimal
from types import MappingProxyType
from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt

from .rules import DecisionRule

Floats = npt.NDArray[np.float64]
_NOTHING: Mapping[int, str] = MappingProxyType({})


class Column(NamedTuple):
    """Readings of one characteristic. Made for every piece, and a tuple costs a quarter of a frozen dataclass.

    `values` is float64 with NaN where a piece was not measured, or a list of true / false / word / None.
    `pieces` numbers the pieces where they are not 0, 1, 2 ...
    """

    id: str
    values: Floats | list[bool | str | None]
    unit: str | None = None
    expanded_uncertainty: Decimal | None = None
    coverage_factor: Decimal = Decimal(2)
    decision_rule: DecisionRule | None = None
    pieces: tuple[int, ...] | None = None
    edition: str | None = None
    #: How several readings of one piece count: "each" must conform, or their "mean"; None refuses them.
    repeated: str | None = None
    #: Piece -> reason: the test went wrong, not the piece. Set aside, never silently dropped.
    replaced: Mapping[int, str] = _NOTHING
    #: Of the whole column, or one for each reading.
    instrument: str | tuple[str | None, ...] | None = None
    measured_at: datetime | tuple[datetime | None, ...] | None = None
    #: Sent as a list and not as an object: the list itself holds the readings, not its member `values`.
    bare: bool = False

    @property
    def standard_uncertainty(self) -> Decimal | None:
        """u = U / k, in the unit of the readings."""
        return None if self.expanded_uncertainty is None else self.expanded_uncertainty / self.coverage_factor

    @property
    def settings(self) -> tuple[object, ...]:
        """What is the same in every block of a lot, and decides how the readings are judged."""
        return (
            self.unit,
            self.expanded_uncertainty,
            self.coverage_factor,
            self.decision_rule,
            self.edition,
            self.repeated,
        )

    def measured_mask(self) -> npt.NDArray[np.bool_]:
        """True where the piece was measured."""
        if isinstance(self.values, np.ndarray):
            return ~np.isnan(self.values)
        return np.array([value is not None for value in self.values], dtype=bool)


@dataclass(frozen=True, slots=True)
class Requirement:
    """A limit of the purchaser that replaces or adds to the standard's. A side not given keeps the standard's."""

    id: str
    given: Mapping[str, Any]
    document: str | None = None
    revision: str | None = None


@dataclass(frozen=True, slots=True)
class Retest:
    """The purchaser's agreement to a retest; without `first_sample` the plan of the lot says where it begins."""

    agreed_in: str
    first_sample: int | None = None


@dataclass(frozen=True, slots=True)
class Request:
    """One lot to judge."""

    designation: str
    columns: tuple[Column, ...]
    decision_rule: DecisionRule
    fracture_rule: str = "standard"
    lot_size: int | None = None
    requirements: tuple[Requirement, ...] = ()
    dropped: Mapping[str, str] = field(default_factory=dict)
    sampling: Mapping[str, Any] | None = None
    sampling_destructive: Mapping[str, Any] | None = None
    risks: bool = False
    retest: Retest | None = None

    @property
    def attributes(self) -> frozenset[str]:
        """Ids that the purchaser requires as attributes."""
        return frozenset(one.id for one in self.requirements if one.given.get("kind") == "attribute")


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
