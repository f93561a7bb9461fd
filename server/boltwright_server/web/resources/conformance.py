"""POST /v1/conformance: judges a lot's readings against its specification."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Any

from flask import Response, request
from marshmallow import Schema, fields

from ...conformance import Judgement, judge
from ...conformance.risks import Risks
from ...conformance.rules import DecisionRule, Regions
from ...conformance.sampling import GroupPlan
from ...conformance.tally import CharacteristicVerdict
from ..api import blueprint as new_blueprint
from ..bodies import json_body
from ..caching import JSON
from ..conformance_body import read_request
from ..conformance_schemas import BODY_SCHEMA
from ..conformance_stream import MEDIA_TYPE, judge_stream
from ..digests import replay_of, with_digest
from ..observability import count_lot
from ..presentation import basis, bounds, encode
from ..schemas import AnswerSchema, BasisSchema, BoundsSchema

blueprint = new_blueprint("conformance", "Judgement of readings and lots")


class CharacteristicVerdictSchema(Schema):
    """What was found of one characteristic."""

    verdict = fields.String(metadata={"enum": ["conforming", "nonconforming", "undecided"]})
    limits = fields.Nested(BoundsSchema, allow_none=True)
    acceptance_limits = fields.Dict(allow_none=True, metadata={"description": "After the guard band, not rounded."})
    count = fields.Integer()
    nonconforming_count = fields.Integer()
    undecided_count = fields.Integer()
    nonconforming_pieces = fields.List(fields.Integer())
    nonconforming_pieces_truncated = fields.Boolean()
    statistics = fields.Dict(allow_none=True)
    margin = fields.Float(
        allow_none=True, metadata={"description": "Least distance of a reading to its nearest limit; below 0 outside."}
    )
    outlying_pieces = fields.List(fields.Integer(), metadata={"description": "Flagged, never dropped."})
    risks = fields.Dict(allow_none=True, metadata={"description": "On request: JCGM 106 probabilities."})
    decision_rule = fields.Dict()
    basis = fields.Nested(BasisSchema)


class ReplaySchema(Schema):
    """What replays the verdict: same request and fingerprint, same bytes."""

    request_sha256 = fields.String(metadata={"description": "Over the canonical JSON of the request."})
    request = fields.Dict(
        allow_none=True, metadata={"description": "The canonical request; null where it is long: keep your own."}
    )


class ReasonSchema(Schema):
    """A reason of the verdict, the heaviest first."""

    code = fields.String()
    characteristic = fields.String(allow_none=True)
    group = fields.String(allow_none=True)
    detail = fields.String()
    basis = fields.Nested(BasisSchema, allow_none=True)


class ConformanceSchema(AnswerSchema):
    """The verdict on a lot."""

    designation = fields.String()
    verdict = fields.String(metadata={"enum": ["accept", "reject", "incomplete"]})
    lot_size = fields.Integer(allow_none=True)
    characteristics = fields.Dict(keys=fields.String(), values=fields.Nested(CharacteristicVerdictSchema))
    missing = fields.List(fields.String())
    dropped = fields.Dict(keys=fields.String(), values=fields.Dict())
    sampling = fields.Dict(metadata={"description": "By group: plan used, nonconforming pieces, acceptance number."})
    decision_rule = fields.Dict()
    fracture_rule = fields.String()
    reasons = fields.List(fields.Nested(ReasonSchema))
    notices = fields.List(fields.String())
    replay = fields.Nested(ReplaySchema)


@blueprint.route("/conformance", methods=["POST"])
@blueprint.doc(
    requestBody={
        "required": True,
        "content": {
            "application/json": {"schema": BODY_SCHEMA},
            MEDIA_TYPE: {
                "schema": {
                    "type": "string",
                    "description": 'First line: the members beside `readings`. Each further line: {"readings": {...}}, '
                    "the pieces following those of the line before.",
                }
            },
        },
    },
)
@blueprint.response(200, ConformanceSchema)
def post_conformance() -> Response:
    """Judge the readings of a lot: each characteristic, then the lot."""
    if request.mimetype == MEDIA_TYPE:
        # A stream may exceed the limit of a body: it is never held in memory.
        request.max_content_length = None
        return with_digest(Response(encode(_counted(judge_stream(request.stream))), mimetype=JSON))
    return conformance_answer(json_body(request))


def conformance_answer(body: bytes) -> Response:
    """Return the answer to a JSON request, with the digest by which it is replayed."""
    shown = _counted(judge(read_request(body)))
    return with_digest(Response(encode({**shown, "replay": replay_of(body)}), mimetype=JSON))


def _counted(found: Judgement) -> dict[str, Any]:
    count_lot(found.verdict)
    return judgement_shown(found)


def judgement_shown(found: Judgement) -> dict[str, Any]:
    """Return the members of a judgement."""
    default = found.request.decision_rule
    rules = found.rules
    return {
        "designation": found.designation,
        "verdict": found.verdict,
        "lot_size": found.request.lot_size,
        "characteristics": {id: _characteristic(one, rules[id]) for id, one in found.characteristics.items()},
        "missing": list(found.missing),
        "dropped": {id: {"reason": reason or None} for id, reason in found.dropped.items()},
        "sampling": {group: _plan(plan, found.nonconforming_by_group[group]) for group, plan in found.plans.items()},
        "decision_rule": rule_shown(default),
        "fracture_rule": found.request.fracture_rule,
        "reasons": [
            {
                "code": reason.code,
                "characteristic": reason.characteristic,
                "group": reason.group,
                "detail": reason.detail,
                "basis": basis(reason.basis) if reason.basis is not None else None,
            }
            for reason in found.reasons
        ],
        "notices": list(found.notices),
    }


@cache
def rule_shown(rule: DecisionRule) -> dict[str, Any]:
    """Return a decision rule as resolved, with the standard and edition behind it."""
    source = rule.basis
    return {
        "rule": rule.rule,
        "edition": source.edition,
        "standard": source.standard,
        "operator": rule.operator,
        "basis": basis(source),
    }


def _characteristic(one: CharacteristicVerdict, rule: DecisionRule) -> dict[str, Any]:
    outcome = one.outcome
    measured = outcome.regions is not None
    found = one.statistics
    return {
        "verdict": one.verdict,
        "limits": bounds(outcome.limits) if outcome.limits is not None else None,
        "acceptance_limits": _acceptance(outcome.regions, outcome.unit),
        "allowed": list(one.characteristic.allowed),
        "count": one.count,
        "nonconforming_count": one.nonconforming_count,
        "undecided_count": one.undecided_count,
        "nonconforming_pieces": list(one.nonconforming_pieces),
        "nonconforming_pieces_truncated": one.truncated,
        "statistics": None
        if found is None
        else {
            "mean": found.mean,
            "standard_deviation": found.standard_deviation,
            "min": found.min,
            "max": found.max,
            "cp": found.cp,
            "cpk": found.cpk,
            "unit": outcome.unit,
        },
        "margin": one.margin,
        "outlying_pieces": list(one.outlying_pieces),
        "risks": None if one.risks is None else _risks(one.risks),
        "decision_rule": rule_shown(rule) if measured else None,
        "basis": basis(outcome.basis),
    }


def _risks(found: Risks) -> dict[str, float | None]:
    return {
        "least_conformance_probability": found.least_conformance_probability,
        "greatest_specific_consumer_risk": found.greatest_specific_consumer_risk,
        "greatest_specific_producer_risk": found.greatest_specific_producer_risk,
        "global_consumer_risk": found.global_consumer_risk,
        "global_producer_risk": found.global_producer_risk,
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
        "basis": basis(plan.basis),
    }
