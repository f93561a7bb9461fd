"""From a judgement to the members of the wire contract.

What the plan of a lot settles is encoded once and kept as long as the plan; only findings are encoded for each piece.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Any
from weakref import WeakKeyDictionary

import msgspec

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
from ..http.presentation import basis, bounds, encoded, shown_mark


@dataclass(frozen=True, slots=True)
class Settled:
    """The members of a characteristic that its plan settles, as JSON."""

    limits: msgspec.Raw
    acceptance_limits: msgspec.Raw
    allowed: msgspec.Raw
    decision_rule: msgspec.Raw | None
    basis: msgspec.Raw


#: A plan is shown in the same way as long as it lives; two plans that are equal may state other digits.
_SETTLED: WeakKeyDictionary[ColumnPlan, Settled] = WeakKeyDictionary()


def judgement_shown(found: Judgement) -> dict[str, Any]:
    """Return the members of a judgement."""
    plan = found.plan
    return {
        "designation": plan.specification.designation,
        "verdict": found.verdict,
        "lot_size": plan.request.lot_size,
        "characteristics": {
            id: _characteristic(one, found.records.get(id)) for id, one in found.characteristics.items()
        },
        "missing": found.missing,
        "conforms_to_standard": found.conforms_to_standard,
        "deviations": [deviation_shown(one) for one in plan.judged.deviations],
        "not_looked_at": [{"id": id, "why": why} for id, why in found.not_looked_at],
        "dropped": {id: {"reason": reason} for id, reason in plan.judged.dropped.items()},
        "sampling": {group: _plan(one, found.groups[group].pieces) for group, one in plan.groups.items()},
        "decision_rule": rule_shown(plan.request.decision_rule),
        "fracture_rule": plan.request.fracture_rule,
        "reasons": [_reason(reason) for reason in found.reasons],
        "notices": found.notices,
        **_marks(found),
    }


def _marks(found: Judgement) -> dict[str, Any]:
    """Class mark and package text belong to a lot that is accepted and conforms to its standard, to no other."""
    specified = found.plan.specification
    if not found.carries_class:
        return {"marking": [], "package_marking": None}
    return {"marking": [_mark(one) for one in specified.marking], "package_marking": _mark(specified.package)}


@remembered(512)
def _mark(one: Mark | None) -> msgspec.Raw:
    return encoded(None if one is None else shown_mark(one))


def deviation_shown(one: Deviation) -> dict[str, Any]:
    """Return the members of a deviation: what the standard asks for, what was used, the purchaser's document."""
    return {
        "id": one.id,
        "standard_limit": _limit(one.standard),
        "used_limit": None if one.used is None else _limit(one.used),
        "detail": one.detail,
        "basis": _basis(one.basis),
    }


def _limit(one: Characteristic) -> dict[str, Any]:
    """Return the limits (of a hardness by scale) or what is allowed, and whether it is mandatory."""
    shown: dict[str, Any] = {"mandatory": one.mandatory}
    if one.scales:
        return shown | {"scales": {scale: bounds(held) for scale, held in one.scales.items()}}
    if one.bounds is not None:
        return shown | msgspec.structs.asdict(bounds(one.bounds))
    return shown | {"allowed": list(one.allowed)}


def _characteristic(one: CharacteristicVerdict, record: Record | None) -> dict[str, Any]:
    settled = _SETTLED.get(one.plan)
    if settled is None:
        settled = _SETTLED.setdefault(one.plan, _settled(one.plan))
    return {
        "verdict": one.verdict,
        "state": one.characteristic.state,
        "limits": settled.limits,
        "acceptance_limits": settled.acceptance_limits,
        "allowed": settled.allowed,
        "count": one.measured_count,
        "nonconforming_count": one.nonconforming_count,
        "undecided_count": one.undecided_count,
        "nonconforming_pieces": one.nonconforming_pieces,
        "nonconforming_pieces_truncated": one.truncated,
        "statistics": None if one.statistics is None else _statistics(one.statistics, one.plan.unit),
        "margin": one.margin,
        "outlying_pieces": one.outlying_pieces,
        "risks": None if one.risks is None else _risks(one.risks),
        "record": None if record is None else _record(record),
        "decision_rule": settled.decision_rule,
        "basis": settled.basis,
    }


def _record(found: Record) -> dict[str, Any]:
    times = (found.measured_from, found.measured_until)
    first, last = (None if time is None else time.isoformat() for time in times)
    return {"instruments": sorted(found.instruments), "measured_from": first, "measured_until": last}


def _settled(plan: ColumnPlan) -> Settled:
    return Settled(
        encoded(None if plan.limits is None else bounds(plan.limits)),
        encoded(_acceptance(plan.regions, plan.unit)),
        encoded(list(plan.characteristic.allowed)),
        rule_shown(plan.rule) if plan.gate is not None else None,
        _basis(plan.basis),
    )


def _statistics(found: Statistics, unit: str | None) -> dict[str, Any]:
    return {
        "mean": found.mean,
        "standard_deviation": found.standard_deviation,
        "min": found.min,
        "max": found.max,
        "cp": found.cp,
        "cpk": found.cpk,
        "unit": unit,
    }


def _risks(found: Risks) -> dict[str, Any]:
    return {
        "least_conformance_probability": found.least_conformance_probability,
        "greatest_specific_consumer_risk": found.greatest_specific_consumer_risk,
        "greatest_specific_producer_risk": found.greatest_specific_producer_risk,
        "global_consumer_risk": found.global_consumer_risk,
        "global_producer_risk": found.global_producer_risk,
        "conformance_probabilities": list(found.conformance_probabilities),
    }


def _acceptance(regions: Regions | None, unit: str | None) -> dict[str, Any] | None:
    """Acceptance limits in the unit of the readings; both null where conformity cannot be proved at all."""
    if regions is None:
        return None
    low, high = regions.conforming_low, regions.conforming_high
    return {
        "min": None if low is None else _number(low.at),
        "max": None if high is None else _number(high.at),
        "unit": unit,
        "attainable": regions.attainable,
    }


def _number(exact: Fraction) -> float:
    return exact.numerator / exact.denominator


def _plan(plan: GroupPlan, nonconforming: int) -> dict[str, Any]:
    return {
        "sample_size": plan.sample_size,
        "acceptance_number": plan.acceptance_number,
        "nonconforming_pieces": nonconforming,
        "plan": plan.plan,
        "second_sample": None if plan.second is None else _second_sample(plan.second),
        "basis": _basis(plan.basis),
    }


def _second_sample(second: SecondSample) -> dict[str, Any]:
    return {"first_piece": second.first, "sample_size": second.size, "basis": _basis(second.basis)}


def _reason(reason: Reason) -> dict[str, Any]:
    return {
        "code": reason.code,
        "characteristic": reason.characteristic,
        "group": reason.group,
        "detail": reason.detail,
        "basis": None if reason.basis is None else _basis(reason.basis),
    }


@remembered(64)
def rule_shown(rule: DecisionRule) -> msgspec.Raw:
    """Return a decision rule as resolved, with the standard and edition behind it."""
    source = rule.basis
    return encoded(
        {
            "rule": rule.rule,
            "edition": source.edition,
            "standard": source.standard,
            "operator": rule.operator,
            "basis": basis(source),
        }
    )


@remembered(4096)
def _basis(source: Basis) -> msgspec.Raw:
    return encoded(basis(source))
