"""POST /v1/sampling-plan/switching: normal, tightened or reduced, lot after lot. It changes nothing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from ..decoding import Result
from ..transport import Connection
from ..values import Basis, plain_number


@dataclass(frozen=True, slots=True, kw_only=True)
class SwitchingStep:
    """What was applied to one lot, and the severity of the next."""

    severity: str
    code_letter: str
    sample_size: int
    acceptance_number: int
    accepted: bool
    switching_score: int
    next_severity: str
    discontinue: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Switching(Result):
    """A step for each lot, up to the one after which inspection is discontinued."""

    steps: tuple[SwitchingStep, ...]
    next_severity: str
    basis: Basis
    notices: tuple[str, ...] = ()


def sampling_plan_switching(
    connection: Connection,
    aql: float | Decimal,
    lots: Iterable[tuple[int, int]],
    *,
    level: str | None = None,
    start: str | None = None,
    production_steady: bool | None = None,
    authority_agrees: bool | None = None,
) -> Switching:
    """Return the severity of inspection for consecutive lots by ISO 2859-1.

    Args:
        aql: in percent, one of the standard's.
        lots: lot size and nonconforming pieces found in its sample, the oldest lot first.
        level: inspection level; II where none is named.
        start: severity of the first lot; normal where none is named.
        production_steady, authority_agrees: both are needed for reduced inspection.

    Raises:
        Error: see `boltwright.errors`.
    """
    body = {
        "aql": plain_number(aql),
        "level": level,
        "start": start,
        "production_steady": production_steady,
        "authority_agrees": authority_agrees,
        "lots": [{"lot_size": size, "nonconforming": found} for size, found in lots],
    }
    return connection.post(Switching, "/v1/sampling-plan/switching", body)
