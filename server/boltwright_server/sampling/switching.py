"""Switching between normal, tightened and reduced inspection.

ISO 2859-1:1999, clause 9.3 and 9.4; details of the switching score from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from .iso_2859_1 import aqls, iso_2859_1

_TIGHTEN_AT, _OF_LOTS, _RELAX_AFTER = 2, 5, 5
_REDUCE_AT_SCORE, _DISCONTINUE_AT = 30, 5


@dataclass(frozen=True, slots=True)
class InspectedLot:
    """A lot at its original inspection: size and nonconforming pieces found in its sample."""

    lot_size: int
    nonconforming: int


@dataclass(frozen=True, slots=True)
class Step:
    """What was applied to one lot and the state after it."""

    severity: str
    sample_size: int
    acceptance_number: int
    accepted: bool
    switching_score: int
    next_severity: str
    discontinue: bool


@dataclass(slots=True)
class _State:
    severity: str = "normal"
    score: int = 0
    streak: int = 0
    refused_on_tightened: int = 0
    recent: list[bool] | None = None


def switching(
    lots: Sequence[InspectedLot], aql: Decimal, level: str = "II", production_steady: bool = False
) -> tuple[Step, ...]:
    """Return plan, verdict and next severity for consecutive lots, starting with normal inspection.

    ISO 2859-1:1999, clause 9.3: 2 of 5 lots refused tighten, 5 accepted lots relax, a score of 30 with steady
    production (and the responsible authority's consent, which the caller vouches for) reduces.
    """
    state = _State(recent=[])
    return tuple(_step(state, lot, aql, level, production_steady) for lot in lots)


def _step(state: _State, lot: InspectedLot, aql: Decimal, level: str, steady: bool) -> Step:
    severity = state.severity
    plan = iso_2859_1(lot.lot_size, aql, level, severity)
    accepted = lot.nonconforming <= plan.acceptance_number
    {"normal": _normal, "tightened": _tightened, "reduced": _reduced}[severity](
        state, accepted, steady, _tighter_accepts(lot, aql, level, plan.acceptance_number)
    )
    discontinue = state.refused_on_tightened >= _DISCONTINUE_AT
    return Step(severity, plan.sample_size, plan.acceptance_number, accepted, state.score, state.severity, discontinue)


def _tighter_accepts(lot: InspectedLot, aql: Decimal, level: str, acceptance: int) -> bool | None:
    """Whether the lot would pass with the AQL one step tighter; None where the plan accepts on 0 or 1."""
    if acceptance < 2:
        return None
    names = [Decimal(name) for name in aqls()]
    at = names.index(aql)
    tighter = iso_2859_1(lot.lot_size, names[max(at - 1, 0)], level)
    return lot.nonconforming <= tighter.acceptance_number


def _normal(state: _State, accepted: bool, steady: bool, tighter: bool | None) -> None:
    recent = [*(state.recent or []), accepted][-_OF_LOTS:]
    state.recent = recent
    earned = accepted if tighter is None else tighter
    state.score = state.score + (2 if tighter is None else 3) if earned else 0
    if recent.count(False) >= _TIGHTEN_AT:
        _enter(state, "tightened")
    elif state.score >= _REDUCE_AT_SCORE and steady:
        _enter(state, "reduced")


def _tightened(state: _State, accepted: bool, steady: bool, tighter: bool | None) -> None:
    state.streak = state.streak + 1 if accepted else 0
    state.refused_on_tightened += not accepted
    if state.streak >= _RELAX_AFTER:
        _enter(state, "normal")


def _reduced(state: _State, accepted: bool, steady: bool, tighter: bool | None) -> None:
    if not accepted or not steady:
        _enter(state, "normal")


def _enter(state: _State, severity: str) -> None:
    state.severity, state.score, state.streak, state.recent = severity, 0, 0, []
    state.refused_on_tightened = 0
