"""GET /v1/sampling-plan: sample size, acceptance number and the risks of a plan."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...quantities import NotUnderstood
from ...sampling import SCHEMES, RiskPoint, SamplingPlan, sampling_plan
from ...sampling.catalogue import LARGEST_LOT
from ...sampling.plan import SecondSample
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.presentation import basis, encode
from ..http.queries import query, text
from ..http.schemas import AnswerSchema, BasisSchema

blueprint = new_blueprint("sampling_plan", "Sampling plans and the risks that they carry")
_MOST_FRACTIONS = 100


class SamplingPlanQuery(Schema):
    """Which plan."""

    scheme = fields.String(
        required=True, validate=validate.OneOf(tuple(SCHEMES), error=f"is not one of {', '.join(SCHEMES)}")
    )
    lot_size = fields.Integer(
        required=True,
        validate=validate.Range(1, LARGEST_LOT, error=f"is a whole number from 1 to {LARGEST_LOT}"),
        metadata={"description": "Pieces in the lot.", "example": 12000},
    )
    level = text("Inspection level of ISO 2859-1.", "II")
    severity = text("normal, tightened or reduced.", "normal")
    aql = text("AQL in percent.", "1.0")
    group = text("Characteristic group, for ISO 3269.", "dimension")
    category = text("Category 1, 2 or 3 of ISO 3269:2019.", "2")
    second_sample = fields.Boolean(
        truthy={"true"},
        falsy={"false"},
        metadata={"description": "ISO 3269:2019: a second sample in category 1 too, on which two texts differ."},
    )
    edition = text("Edition of ISO 3269.", "2019")
    acceptance_number = text("Acceptance number, for ISO 3269:2000.", "0")
    limiting_quality = text("Fraction nonconforming that shall hardly ever be accepted.", "0.01")
    consumer_risk = text("Greatest probability of accepting it.", "0.1")
    fractions = text("Fractions nonconforming at which the operating characteristic is wanted.", "0.01,0.05")


class RiskSchema(Schema):
    """A risk at a fraction nonconforming."""

    at = fields.Float()
    value = fields.Float()


class OperatingPointSchema(Schema):
    """One point of the operating characteristic."""

    fraction_nonconforming = fields.Float()
    acceptance_probability = fields.Float()
    average_outgoing_fraction = fields.Float()
    finite_lot_acceptance_probability = fields.Float(
        metadata={"description": "Hypergeometric: this lot with ceil(lot size x fraction) nonconforming pieces."}
    )


class SecondSampleSchema(Schema):
    """A second sample that the scheme allows."""

    sample_size = fields.Integer()
    rule = fields.String()
    consumer_risk = fields.Nested(RiskSchema)


class SamplingPlanSchema(AnswerSchema):
    """A plan."""

    scheme = fields.String()
    edition = fields.String()
    lot_size = fields.Integer()
    code_letter = fields.String(allow_none=True)
    letter_used = fields.String(allow_none=True, metadata={"description": "Where the arrows of the table lead."})
    sample_size = fields.Integer()
    acceptance_number = fields.Integer()
    rejection_number = fields.Integer()
    second_sample = fields.Nested(SecondSampleSchema, allow_none=True)
    producer_risk = fields.Nested(RiskSchema, allow_none=True)
    consumer_risk = fields.Nested(RiskSchema, allow_none=True)
    operating_characteristic = fields.List(fields.Nested(OperatingPointSchema))
    basis = fields.Nested(BasisSchema)
    notices = fields.List(fields.String())


_NUMBERS = ("aql", "category", "acceptance_number", "limiting_quality", "consumer_risk")


@blueprint.route("/sampling-plan")
@look_up
@query(blueprint, SamplingPlanQuery)
@blueprint.response(200, SamplingPlanSchema)
def get_sampling_plan(arguments: dict[str, Any]) -> Response:
    """Return a plan of ISO 2859-1, ISO 3269 or a computed zero-acceptance plan, with its risks."""
    parameters = {name: value for name, value in arguments.items() if name not in ("scheme", "lot_size")}
    for name in _NUMBERS:
        if name in parameters:
            parameters[name] = _number(parameters[name], name)
    if "fractions" in parameters:
        parameters["fractions"] = _fractions(parameters["fractions"])
    plan = sampling_plan(arguments["scheme"], arguments["lot_size"], parameters)
    return Response(encode(plan_shown(plan)), mimetype=JSON)


def plan_shown(plan: SamplingPlan) -> dict[str, Any]:
    """Return the members of a plan."""
    second = plan.second_sample
    return {
        "scheme": plan.scheme,
        "edition": plan.edition,
        "lot_size": plan.lot_size,
        "code_letter": plan.code_letter,
        "letter_used": plan.letter_used,
        "sample_size": plan.sample_size,
        "acceptance_number": plan.acceptance_number,
        "rejection_number": plan.rejection_number,
        "second_sample": None if second is None else _second_sample(second),
        "producer_risk": _risk(plan.producer_risk),
        "consumer_risk": _risk(plan.consumer_risk),
        "operating_characteristic": [
            {
                "fraction_nonconforming": point.fraction_nonconforming,
                "acceptance_probability": point.acceptance_probability,
                "average_outgoing_fraction": point.average_outgoing_fraction,
                "finite_lot_acceptance_probability": point.finite_lot_acceptance_probability,
            }
            for point in plan.operating_characteristic
        ],
        "basis": basis(plan.basis),
        "notices": list(plan.notices),
    }


def _second_sample(second: SecondSample) -> dict[str, Any]:
    return {
        "sample_size": second.sample_size,
        "rule": second.rule,
        "consumer_risk": _risk(second.consumer_risk),
    }


def _risk(point: RiskPoint | None) -> dict[str, float] | None:
    return None if point is None else {"at": point.at, "value": point.value}


def _number(text: str, name: str) -> Decimal:
    try:
        number = Decimal(text.strip())
    except InvalidOperation:
        number = Decimal("NaN")
    if not number.is_finite() or abs(number.adjusted()) > 12:
        raise NotUnderstood(f"{name} {text[:40]!r} is no number", member=name, code="wrong_type")
    return number


def _fractions(text: str) -> tuple[Decimal, ...]:
    numbers = tuple(_number(part, "fractions") for part in text.split(",") if part.strip())
    if not 1 <= len(numbers) <= _MOST_FRACTIONS or any(not 0 <= number <= 1 for number in numbers):
        raise NotUnderstood(
            f"fractions are 1 to {_MOST_FRACTIONS} numbers from 0 to 1, separated by commas",
            member="fractions",
            code="out_of_range",
        )
    return numbers
