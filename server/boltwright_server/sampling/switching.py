"""Switching between normal, tightened and reduced inspection, lot after lot.

ISO 2859-1:1999, clauses 9.3 and 9.4; how the switching score is counted is from memory.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from ..quantities import Basis, NotUnderstood, UnknownName
from ..standards import rules
from .iso_2859_1 import SEVERITIES, STANDARD, aqls, iso_2859_1, plan_of_letter
from .plan import SamplingPlan

_TIGHTEN_AT, _OF_LOTS, _RELAX_AFTER = 2, 5, 5
_REDUCE_AT_SCORE, _DISCONTINUE_AT = 30, 5


def switching_basis() -> Basis:
    """Return the basis of the rules."""
    return rules(STANDARD).clause("clauses 9.3 and 9.4, switching rules", "tabulated")


@dataclass(frozen=True, slots=True)
class InspectedLot:
    """A lot at its original inspection: its size and the nonconforming pieces found in its sample."""

    lot_size: int
    nonconforming: int


@dataclass(frozen=True, slots=True)
class Step:
    """What was applied to one lot, and the state after it."""

    plan: SamplingPlan
    severity: str
    accepted: bool
    switching_score: int
    next_severity: str
    discontinue: bool


@dataclass(slots=True)
class _State:
    severity: str
    score: int = 0
    streak: int = 0
    refused_on_tightened: int = 0
    recent: list[bool] = field(default_factory=list)

    def enter(self, severity: str) -> None:
        """Begin anew with another severity."""
        self.severity, self.score, self.streak, self.recent, self.refused_on_tightened = severity, 0, 0, [], 0


def switching(
    lots: Sequence[InspectedLot],
    aql: Decimal,
    level: str = "II",
    may_reduce: bool = False,
    start: str = "normal",
) -> tuple[Step, ...]:
    """Return plan, verdict and next severity for consecutive lots; it ends where inspection is to be discontinued.

    ISO 2859-1:1999, clause 9.3: two of five or fewer consecutive lots refused tighten; five accepted in succession
    relax; a switching score of 30 reduces where `may_reduce`: production is steady and the authority agrees.
    Clause 9.4: five lots refused on tightened inspection end it.

    Raises:
        UnknownName: no such severity, level or AQL. NotUnderstood: more nonconforming pieces than the sample has.
    """
    if start not in SEVERITIES:
        raise UnknownName(f"no severity {start[:20]!r}; it is {', '.join(SEVERITIES)}", member="start", code="invalid")
    return tuple(_steps(_State(start), lots, aql, level, may_reduce))


def _steps(state: _State, lots: Sequence[InspectedLot], aql: Decimal, level: str, may_reduce: bool) -> Iterator[Step]:
    for at, lot in enumerate(lots):
        severity, plan = state.severity, iso_2859_1(lot.lot_size, aql, level, state.severity)
        if lot.nonconforming > plan.sample_size:
            raise NotUnderstood(
                f"{lot.nonconforming} nonconforming pieces in a sample of {plan.sample_size} ({severity} inspection)",
                member=f"lots/{at}/nonconforming",
                code="out_of_range",
            )
        accepted = lot.nonconforming <= plan.acceptance_number
        if severity == "normal":
            _normal(state, accepted, _earned(lot, plan, aql), may_reduce)
        elif severity == "tightened":
            _tightened(state, accepted)
        elif not accepted or not may_reduce:
            state.enter("normal")
        discontinue = state.refused_on_tightened >= _DISCONTINUE_AT
        yield Step(plan, severity, accepted, state.score, state.severity, discontinue)
        if discontinue:
            return


def _normal(state: _State, accepted: bool, earned: int, may_reduce: bool) -> None:
    state.recent = [*state.recent, accepted][-_OF_LOTS:]
    state.score = state.score + earned if earned else 0
    if state.recent.count(False) >= _TIGHTEN_AT:
        state.enter("tightened")
    elif state.score >= _REDUCE_AT_SCORE and may_reduce:
        state.enter("reduced")


def _tightened(state: _State, accepted: bool) -> None:
    state.streak = state.streak + 1 if accepted else 0
    state.refused_on_tightened += not accepted
    if state.streak >= _RELAX_AFTER:
        state.enter("normal")


def _earned(lot: InspectedLot, plan: SamplingPlan, aql: Decimal) -> int:
    """Return what a lot adds to the switching score; 0 sets it back.

    An acceptance number of 0 or 1 earns 2 where the lot is accepted; a greater one earns 3 where it would have been
    accepted with the AQL one step tighter, on the same sample.
    """
    if plan.acceptance_number < 2:
        return 2 if lot.nonconforming <= plan.acceptance_number else 0
    names = [Decimal(name) for name in aqls()]
    tighter = names[max(names.index(aql) - 1, 0)]
    assert plan.letter_used is not None
    return 3 if lot.nonconforming <= plan_of_letter(plan.letter_used, tighter, "normal").acceptance_number else 0
