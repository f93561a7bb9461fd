"""From a judgement to the members of the wire contract.

What the plan of a lot settles is encoded once and kept as long as the plan; only findings are encoded for each piece.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any
from weakref import WeakKeyDictionary

from ...conformance import Judgement
from ...conformance.characteristics import Deviation
from ...conformance.column_plan import ColumnPlan
from ...conformance.readings import Record
from ...conformance.risks import Risks
from ...conformance.rules import DecisionRule, Regions
from ...conformance.sampling import GroupPlan, SecondSample
from ...conformance.statistics import Statistics
from ...conformance.telling import Reason
from ...conformance.verdicts import CharacteristicVerdict
from ...mechanical import Mark
from ...quantities import Basis
from ...quantities.keeper import remembered
from ...specification import Characteristic
from ..http.answers import BasisAnswer, BoundsAnswer, shown
from ..http.presentation import all_bounds, basis, bounds, encoded
from ..look_ups.mechanical_minimums import MarkAnswer
from .answers import (
    AcceptanceLimits,
    CharacteristicVerdictAnswer,
    Conformance,
    DeviationAnswer,
    DroppedAnswer,
    GroupPlanAnswer,
    LimitAnswer,
    NotLookedAt,
    ReasonAnswer,
    RecordAnswer,
    Replay,
    RisksAnswer,
    RuleAnswer,
    SecondSampleOfLot,
    StatisticsAnswer,
)


@dataclass(frozen=True, slots=True)
class Settled:
    """The members of a characteristic that its plan settles, as JSON."""

    limits: BoundsAnswer | None
    acceptance_limits: AcceptanceLimits | None
    allowed: list[Any]
    decision_rule: RuleAnswer | None
    basis: BasisAnswer


#: A plan is shown in the same way as long as it lives; two plans that are equal may state other digits.
_SETTLED: WeakKeyDictionary[ColumnPlan, Settled] = WeakKeyDictionary()


def judgement_shown(found: Judgement, replay: Replay) -> Conformance:
    """Return a judgement as its answer shows it."""
    plan, specified = found.plan, found.plan.specification
    # Class mark and package text belong to a lot that is accepted and conforms to its standard, to no other.
    carries = found.carries_class
    return Conformance(
        designation=specified.designation,
        verdict=found.verdict,
        lot_size=plan.request.lot_size,
        characteristics={id: _characteristic(one, found.records.get(id)) for id, one in found.characteristics.items()},
        missing=found.missing,
        conforms_to_standard=found.conforms_to_standard,
        deviations=[deviation_shown(one) for one in plan.judged.deviations],
        not_looked_at=[NotLookedAt(id, why) for id, why in found.not_looked_at],
        dropped={id: DroppedAnswer(reason) for id, reason in plan.judged.dropped.items()},
        sampling={group: _plan(one, found.groups[group].pieces) for group, one in plan.groups.items()},
        decision_rule=rule_shown(plan.request.decision_rule),
        fracture_rule=plan.request.fracture_rule,
        reasons=[_reason(reason) for reason in found.reasons],
        notices=found.notices,
        marking=[_mark(one) for one in specified.marking] if carries else [],
        package_marking=_mark(specified.package) if carries and specified.package is not None else None,
        replay=replay,
    )


@remembered(512)
def _mark(one: Mark) -> MarkAnswer:
    return encoded(shown(MarkAnswer, one))


def deviation_shown(one: Deviation) -> DeviationAnswer:
    """Return a deviation: what the standard asks for, what was used, the purchaser's document."""
    used = None if one.used is None else _limit(one.used)
    return DeviationAnswer(one.id, _limit(one.standard), used, one.detail, basis(one.basis))


def _limit(one: Characteristic) -> LimitAnswer:
    """Return the limits (of a hardness by scale) or what is allowed, and whether it is mandatory."""
    if one.scales:
        return LimitAnswer(mandatory=one.mandatory, scales=all_bounds(one.scales))
    if one.bounds is not None:
        return shown(LimitAnswer, bounds(one.bounds), mandatory=one.mandatory)
    return LimitAnswer(mandatory=one.mandatory, allowed=list(one.allowed))


def _characteristic(one: CharacteristicVerdict, record: Record | None) -> CharacteristicVerdictAnswer:
    settled = _SETTLED.get(one.plan)
    if settled is None:
        settled = _SETTLED.setdefault(one.plan, _settled(one.plan))
    return CharacteristicVerdictAnswer(
        verdict=one.verdict,
        state=one.characteristic.state,
        limits=settled.limits,
        acceptance_limits=settled.acceptance_limits,
        allowed=settled.allowed,
        count=one.measured_count,
        nonconforming_count=one.nonconforming_count,
        undecided_count=one.undecided_count,
        nonconforming_pieces=one.nonconforming_pieces,
        nonconforming_pieces_truncated=one.truncated,
        statistics=None if one.statistics is None else _statistics(one.statistics, one.plan.unit),
        margin=one.margin,
        outlying_pieces=one.outlying_pieces,
        risks=None if one.risks is None else _risks(one.risks),
        record=None if record is None else _record(record),
        decision_rule=settled.decision_rule,
        basis=settled.basis,
    )


def _record(found: Record) -> RecordAnswer:
    times = (found.measured_from, found.measured_until)
    first, last = (None if time is None else time.isoformat() for time in times)
    return RecordAnswer(sorted(found.instruments), first, last)


def _settled(plan: ColumnPlan) -> Settled:
    return Settled(
        encoded(None if plan.limits is None else bounds(plan.limits)),
        encoded(_acceptance(plan.regions, plan.unit)),
        encoded(list(plan.characteristic.allowed)),
        rule_shown(plan.rule) if plan.gate is not None else None,
        _basis(plan.basis),
    )


def _statistics(found: Statistics, unit: str | None) -> StatisticsAnswer:
    return StatisticsAnswer(
        mean=found.mean,
        standard_deviation=found.standard_deviation,
        min=found.min,
        max=found.max,
        cp=found.cp,
        cpk=found.cpk,
        unit=unit,
    )


def _risks(found: Risks) -> RisksAnswer:
    return shown(RisksAnswer, found, conformance_probabilities=list(found.conformance_probabilities))


def _acceptance(regions: Regions | None, unit: str | None) -> AcceptanceLimits | None:
    """Acceptance limits in the unit of the readings."""
    if regions is None:
        return None
    low, high = regions.conforming_low, regions.conforming_high
    return AcceptanceLimits(
        None if low is None else _number(low.at), None if high is None else _number(high.at), unit, regions.attainable
    )


def _number(exact: Fraction) -> float:
    return exact.numerator / exact.denominator


def _plan(plan: GroupPlan, nonconforming: int) -> GroupPlanAnswer:
    return GroupPlanAnswer(
        sample_size=plan.sample_size,
        acceptance_number=plan.acceptance_number,
        nonconforming_pieces=nonconforming,
        plan=plan.plan,
        second_sample=None if plan.second is None else _second_sample(plan.second),
        basis=_basis(plan.basis),
    )


def _second_sample(second: SecondSample) -> SecondSampleOfLot:
    return SecondSampleOfLot(second.first, second.size, _basis(second.basis))


def _reason(reason: Reason) -> ReasonAnswer:
    return ReasonAnswer(
        code=reason.code,
        characteristic=reason.characteristic,
        group=reason.group,
        detail=reason.detail,
        basis=None if reason.basis is None else _basis(reason.basis),
    )


@remembered(64)
def rule_shown(rule: DecisionRule) -> RuleAnswer:
    """Return a decision rule as resolved, with the standard and edition behind it."""
    source = rule.basis
    return encoded(
        RuleAnswer(
            rule=rule.rule,
            edition=source.edition,
            standard=source.standard,
            operator=rule.operator,
            basis=basis(source),
        )
    )


@remembered(4096)
def _basis(source: Basis) -> BasisAnswer:
    return encoded(basis(source))
