"""POST /v1/narrow-limits: what to do after each piece while a machine runs, by the zones of the tolerance."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from ..decoding import Result
from ..readings import written_values
from ..transport import Connection
from ..values import Basis, StatedLimits


@dataclass(frozen=True, slots=True, kw_only=True)
class Zones:
    """Edges of the zones; a side without limit has none."""

    min: float | None = None
    warning_low: float | None = None
    warning_high: float | None = None
    max: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One piece: its zone, what to do, and whether the set-up is qualified after it."""

    zone: str
    action: str
    qualified: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Chances:
    """What a steady normal process does to the rules: `qualification` of a set-up, `stop` at a check."""

    target_zone: float
    warning_zones: float
    outside: float
    qualification: float
    stop: float


@dataclass(frozen=True, slots=True, kw_only=True)
class NarrowLimits(Result):
    """A decision for each piece; `action` and `qualified` are those after the last.

    `chances` are there where a process was given.
    """

    zones: Zones
    steps: tuple[Step, ...]
    action: str
    qualified: bool
    chances: Chances | None = None
    limits: StatedLimits | None = None
    notices: tuple[str, ...] = ()
    basis: Basis | None = None


def narrow_limits(
    connection: Connection,
    values: Iterable[float | Decimal],
    *,
    min: float | Decimal | None = None,
    max: float | Decimal | None = None,
    target: float | Decimal | None = None,
    limits_unit: str | None = None,
    designation: str | None = None,
    characteristic: str | None = None,
    unit: str | None = None,
    process_mean: float | Decimal | None = None,
    process_standard_deviation: float | Decimal | None = None,
) -> NarrowLimits:
    """Return a decision for each piece, starting with a set-up to qualify.

    Args:
        values: readings in the order of production.
        min, max: the limits of the product, in `limits_unit` where that is not the unit of the readings; one of them
            alone needs
        target: the value that the process aims at.
        designation, characteristic: in place of min and max, the characteristic of a product whose limits count.
        unit: of the readings.
        process_mean, process_standard_deviation: ask for the chances of the rules in such a process.

    Raises:
        InvalidRequestError: values or limits that cannot be used. ValueError: NaN or Infinity among the values.
    """
    body = {
        "values": written_values("values", values),
        "min": min,
        "max": max,
        "target": target,
        "limits_unit": limits_unit,
        "designation": designation,
        "characteristic": characteristic,
        "unit": unit,
        "process_mean": process_mean,
        "process_standard_deviation": process_standard_deviation,
    }
    return connection.post(NarrowLimits, "/v1/narrow-limits", body)
