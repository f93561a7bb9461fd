"""GET /v1/sampling-plan: sample size, acceptance number and the risks of a plan."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Annotated, Any

from flask import Response
from marshmallow import Schema, fields, validate
from msgspec import Struct

from ...quantities import NotUnderstood
from ...sampling import SCHEMES, sampling_plan
from ...sampling.catalogue import LARGEST_LOT
from ..http.answers import Answer, BasisAnswer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.queries import query, text

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


class Risk(Struct):
    """A risk at a fraction nonconforming."""

    at: float
    value: float


class OperatingPointAnswer(Struct):
    """One point of the operating characteristic."""

    fraction_nonconforming: float
    acceptance_probability: float
    average_outgoing_fraction: float
    finite_lot_acceptance_probability: Annotated[
        float, described("Hypergeometric: this lot with ceil(lot size x fraction) nonconforming pieces.")
    ]


class SecondSampleAnswer(Struct):
    """A second sample that the scheme allows."""

    sample_size: int
    rule: str
    consumer_risk: Risk


class SamplingPlan(Answer, kw_only=True):
    """A plan."""

    scheme: str
    edition: str
    lot_size: int
    code_letter: str | None
    letter_used: Annotated[str | None, described("Where the arrows of the table lead.")]
    sample_size: int
    acceptance_number: int
    rejection_number: int
    second_sample: SecondSampleAnswer | None
    producer_risk: Risk | None
    consumer_risk: Risk | None
    operating_characteristic: list[OperatingPointAnswer]
    basis: BasisAnswer
    notices: list[str]


_NUMBERS = ("aql", "category", "acceptance_number", "limiting_quality", "consumer_risk")


@blueprint.route("/sampling-plan")
@look_up
@query(blueprint, SamplingPlanQuery)
@answers(blueprint, SamplingPlan)
def get_sampling_plan(arguments: dict[str, Any]) -> Response:
    """Return a plan of ISO 2859-1, ISO 3269 or a computed zero-acceptance plan, with its risks."""
    parameters = {name: value for name, value in arguments.items() if name not in ("scheme", "lot_size")}
    for name in _NUMBERS:
        if name in parameters:
            parameters[name] = _number(parameters[name], name)
    if "fractions" in parameters:
        parameters["fractions"] = _fractions(parameters["fractions"])
    plan = sampling_plan(arguments["scheme"], arguments["lot_size"], parameters)
    return sent(shown(SamplingPlan, plan))


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
