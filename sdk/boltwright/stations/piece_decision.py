"""POST /v1/piece-decision: what to do after each piece; `decide_pieces` decides the same without a service."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from ..decoding import Result
from ..transport import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """The answer to one reading: continue, measure_next, adjust, stop or refused."""

    number: int
    decision: str
    pieces: int | None = None
    amount: Decimal | None = None
    repeat: bool = False
    gap: int = 0
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceDecision(Result):
    """Decisions, and the state to send with the next reading."""

    decisions: tuple[Decision, ...]
    state: str
    sigma_assumed: bool


def piece_decision(
    connection: Connection,
    station: Mapping[str, float | Decimal | None],
    readings: Iterable[tuple[int, float | Decimal | None]],
    *,
    state: str | None = None,
) -> PieceDecision:
    """Return one decision a reading.

    Args:
        station: min, max, resolution of the gauge; standard_deviation, target, step where they are known.
        readings: number of the piece, from 1, and its value; None where there is none.
        state: of the answer before; None starts a set-up.

    Raises:
        InvalidRequestError: among its codes `resolution_too_coarse`, `two_limits_needed`, `state_not_of_this_station`.
    """
    sent = [{"number": number, "value": value} for number, value in readings]
    body = {"station": dict(station), "readings": sent, "state": state}
    return connection.post(PieceDecision, "/v1/piece-decision", body)
