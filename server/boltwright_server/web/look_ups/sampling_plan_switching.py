"""POST /v1/sampling-plan/switching: normal, tightened or reduced, lot after lot, by the rules of ISO 2859-1."""

from __future__ import annotations

from typing import Annotated

from flask import Response, request
from marshmallow import RAISE, Schema, fields, validate
from msgspec import Struct

from ...sampling import InspectedLot, Step, switching
from ...sampling.catalogue import LARGEST_LOT
from ...sampling.iso_2859_1 import LEVELS, SEVERITIES
from ...sampling.switching import switching_basis
from ..http.answers import Answer, BasisAnswer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.bodies import json_body
from ..http.fields import StrictBoolean, StrictDecimal, StrictInteger, StrictString
from ..http.members import load_body
from ..http.presentation import basis

blueprint = new_blueprint("sampling_plan_switching", "Switching between normal, tightened and reduced inspection")
#: Lots in one request; more than a year of a line.
MOST = 1000


class InspectedLotSchema(Schema):
    """A lot at its original inspection."""

    lot_size = StrictInteger(
        required=True, validate=validate.Range(2, LARGEST_LOT, error=f"is from 2 to {LARGEST_LOT}")
    )
    nonconforming = StrictInteger(required=True, validate=validate.Range(0, LARGEST_LOT, error="is 0 or above"))


class SwitchingBody(Schema):
    """Consecutive lots, the oldest first."""

    aql = StrictDecimal(required=True)
    level = StrictString(load_default="II", validate=validate.OneOf(LEVELS, error=f"is not one of {', '.join(LEVELS)}"))
    start = StrictString(
        load_default="normal",
        validate=validate.OneOf(tuple(SEVERITIES), error=f"is not one of {', '.join(SEVERITIES)}"),
    )
    production_steady = StrictBoolean(load_default=False)
    authority_agrees = StrictBoolean(load_default=False)
    lots = fields.List(
        fields.Nested(InspectedLotSchema, unknown=RAISE),
        required=True,
        validate=validate.Length(1, MOST, error=f"holds 1 to {MOST} lots"),
    )


class SwitchingStep(Struct, kw_only=True):
    """What was applied to a lot, and what follows for the next."""

    severity: Annotated[str, described(", ".join(SEVERITIES))]
    code_letter: str
    sample_size: int
    acceptance_number: int
    accepted: bool
    switching_score: int
    next_severity: str
    discontinue: Annotated[bool, described("Inspection stops until the supplier has acted.")]


class SamplingPlanSwitching(Answer, kw_only=True):
    """A step for each lot, up to the one after which inspection is discontinued."""

    steps: list[SwitchingStep]
    next_severity: str
    notices: list[str]
    basis: BasisAnswer


@blueprint.route("/sampling-plan/switching", methods=["POST"])
@blueprint.doc(
    requestBody={
        "required": True,
        "content": {
            "application/json": {
                "schema": {
                    "type": "object",
                    "required": ["aql", "lots"],
                    "additionalProperties": False,
                    "properties": {
                        "aql": {"type": "number", "description": "In percent.", "examples": [1.0]},
                        "level": {"type": "string", "enum": list(LEVELS), "default": "II"},
                        "start": {"type": "string", "enum": list(SEVERITIES), "default": "normal"},
                        "production_steady": {"type": "boolean", "default": False},
                        "authority_agrees": {"type": "boolean", "default": False},
                        "lots": {
                            "type": "array",
                            "maxItems": MOST,
                            "items": {
                                "type": "object",
                                "required": ["lot_size", "nonconforming"],
                                "additionalProperties": False,
                                "properties": {
                                    "lot_size": {"type": "integer", "minimum": 2},
                                    "nonconforming": {"type": "integer", "minimum": 0},
                                },
                            },
                        },
                    },
                }
            }
        },
    }
)
@answers(blueprint, SamplingPlanSwitching)
def post_sampling_plan_switching() -> Response:
    """Return the severity that applied to each lot and the one for the next."""
    members, _ = load_body(json_body(request), SwitchingBody, {})
    lots = [InspectedLot(one["lot_size"], one["nonconforming"]) for one in members["lots"]]
    may_reduce = members["production_steady"] and members["authority_agrees"]
    steps = switching(lots, members["aql"], members["level"], may_reduce, members["start"])
    return sent(
        SamplingPlanSwitching(
            steps=[_step(step) for step in steps],
            next_severity=steps[-1].next_severity,
            notices=_notices(steps, len(lots)),
            basis=basis(switching_basis()),
        )
    )


def _step(step: Step) -> SwitchingStep:
    plan = step.plan
    return shown(
        SwitchingStep,
        step,
        code_letter=plan.code_letter,
        sample_size=plan.sample_size,
        acceptance_number=plan.acceptance_number,
    )


def _notices(steps: tuple[Step, ...], lots: int) -> list[str]:
    found = ["How the switching score is counted is from memory: check it in the standard before relying on it."]
    if steps[-1].discontinue:
        left = lots - len(steps)
        found.append(
            "Five lots were refused on tightened inspection: acceptance is discontinued until the supplier has acted, "
            f"then it starts anew on tightened inspection.{f' {left} further lot(s) are not judged.' if left else ''}"
        )
    return found
