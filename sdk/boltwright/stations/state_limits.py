"""POST /v1/state-limits: limits of an earlier state, by paired readings or by the geometry of a coating."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from ..decoding import Result
from ..look_ups.derivation import Step
from ..readings import written_values
from ..transport import Connection
from ..values import Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Sides:
    """A lower and an upper limit; None is an open side."""

    min: Decimal | None
    max: Decimal | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StateLimits(Result):
    """Limits of a state as decimals. `n` to `slope` are there where paired readings gave them."""

    unit: str
    min: Decimal | None
    max: Decimal | None
    exact: Sides
    final: Sides
    basis: Basis
    step: Decimal
    n: int | None = None
    shift: Decimal | None = None
    standard_deviation: Decimal | None = None
    content: Decimal | None = None
    confidence: Decimal | None = None
    sides: int | None = None
    factor: Decimal | None = None
    slope: float | None = None
    designation: str | None = None
    characteristic: str | None = None
    state: str | None = None
    final_state: str | None = None
    notices: tuple[str, ...] = ()
    derivation: tuple[Step, ...] = ()


def state_limits(
    connection: Connection,
    before: Iterable[float | Decimal] | None = None,
    after: Iterable[float | Decimal] | None = None,
    *,
    designation: str | None = None,
    characteristic: str | None = None,
    min: float | Decimal | None = None,
    max: float | Decimal | None = None,
    unit: str | None = None,
    content: float | None = None,
    confidence: float | None = None,
    step: float | Decimal | None = None,
    state: str | None = None,
    final_state: str | None = None,
    coating_thickness: Mapping[str, Any] | None = None,
    explain: bool | None = None,
) -> StateLimits:
    """Return the limits that hold in an earlier state, so that the part meets the final ones.

    Args:
        before, after: readings of the same numbered pieces in both states, with one instrument.
        designation, characteristic: whose limits are final; or
        min, max: the final limits themselves, in `unit`.
        unit: of limits and readings.
        content, confidence: of the tolerance interval, 0.95 each.
        step: what the limits are rounded to, inwards.
        state, final_state: names that the answer repeats.
        coating_thickness: min and max, in place of the pairs.
        explain: the way to each limit, in `derivation`.

    Raises:
        InvalidRequestError: among its codes `nothing_remains`. ValueError: NaN or Infinity among the readings.
    """
    body = {
        "designation": designation,
        "characteristic": characteristic,
        "min": min,
        "max": max,
        "unit": unit,
        "before": None if before is None else written_values("before", before),
        "after": None if after is None else written_values("after", after),
        "content": content,
        "confidence": confidence,
        "step": step,
        "state": state,
        "final_state": final_state,
        "coating_thickness": coating_thickness,
        "explain": explain,
    }
    return connection.post(StateLimits, "/v1/state-limits", body)
