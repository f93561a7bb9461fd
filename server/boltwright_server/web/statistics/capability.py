"""POST /v1/capability: capability and performance indices of values in the order of production."""

from __future__ import annotations

from typing import Any

from flask import Response, request
from marshmallow import Schema, fields, validate

from ...documents.charts import capability_remarks
from ...statistics import DISTRIBUTIONS, Capability, Distribution, Fit, Index, capability
from ...statistics.goodness_of_fit import SIGNIFICANCE
from ...statistics.sources import indices_basis, normality_basis
from ..http.api import blueprint as new_blueprint
from ..http.caching import SVG
from ..http.fields import StrictInteger, StrictString
from ..http.presentation import basis
from ..http.schemas import AnswerSchema, BasisSchema, StatedLimitsSchema
from .bodies import (
    CONFIDENCE,
    DRAWN_LIMITS,
    DrawnLimitsBody,
    answered,
    confidence_level,
    limits_of,
    read,
    request_body,
)
from .histogram_picture import drawn

blueprint = new_blueprint("capability", "Capability and performance indices of a process")


class CapabilityBody(DrawnLimitsBody):
    """Everything but the values."""

    subgroup_size = StrictInteger(load_default=1)
    confidence_level = confidence_level()
    distribution = StrictString(
        load_default=DISTRIBUTIONS[0],
        validate=validate.OneOf(DISTRIBUTIONS, error=f"is not one of {', '.join(DISTRIBUTIONS)}"),
    )


class IndexSchema(Schema):
    """An index with its confidence interval."""

    value = fields.Float()
    confidence_interval = fields.List(
        fields.Float(allow_none=True), metadata={"description": "null where the distribution is empirical."}
    )


class FitSchema(Schema):
    """Whether the values may come from the distribution that the indices suppose."""

    test = fields.String(metadata={"example": "Anderson-Darling"})
    statistic = fields.Float()
    adjusted_statistic = fields.Float(metadata={"description": "For the number of values."})
    p_value = fields.Float(allow_none=True, metadata={"description": "null where only the 5 % point is tabulated."})
    significance = fields.Float()
    rejected = fields.Boolean()
    basis = fields.Nested(BasisSchema)


class PercentilesSchema(Schema):
    """Where 0.135 %, 50 % and 99.865 % of the distribution lie below."""

    lower = fields.Float()
    median = fields.Float()
    upper = fields.Float()


class DistributionSchema(Schema):
    """The distribution that the indices of performance suppose."""

    name = fields.String(metadata={"enum": list(DISTRIBUTIONS)})
    parameters = fields.List(
        fields.Float(),
        allow_none=True,
        metadata={
            "description": "normal: mean and standard deviation; log-normal: those of the logarithms; "
            "weibull: shape and scale."
        },
    )
    percentiles = fields.Nested(PercentilesSchema, allow_none=True)
    fit = fields.Nested(FitSchema, allow_none=True)


class CapabilitySchema(AnswerSchema):
    """Indices of a process."""

    count = fields.Integer()
    mean = fields.Float()
    standard_deviation_within = fields.Float(allow_none=True)
    standard_deviation_overall = fields.Float(allow_none=True)
    within_method = fields.String()
    subgroup_size = fields.Integer()
    confidence_level = fields.Float()
    limits = fields.Nested(StatedLimitsSchema)
    cp = fields.Nested(IndexSchema, allow_none=True)
    cpk = fields.Nested(IndexSchema, allow_none=True)
    pp = fields.Nested(IndexSchema, allow_none=True)
    ppk = fields.Nested(IndexSchema, allow_none=True)
    distribution = fields.Nested(DistributionSchema)
    expected_nonconforming = fields.Dict(
        metadata={"description": "below_min, above_max: shares of the distribution; null where there is no limit."}
    )
    basis = fields.Nested(BasisSchema)
    notices = fields.List(fields.String())


REQUEST_BODY = request_body(
    DRAWN_LIMITS,
    CONFIDENCE,
    {
        "subgroup_size": {"type": "integer", "minimum": 1, "maximum": 25, "default": 1},
        "distribution": {
            "type": "string",
            "enum": list(DISTRIBUTIONS),
            "default": DISTRIBUTIONS[0],
            "description": "Not normal: Pp and Ppk by the percentiles 0.135 %, 50 % and 99.865 %, without Cp and Cpk.",
        },
    },
)


@blueprint.route("/capability", methods=["POST"])
@blueprint.doc(requestBody=REQUEST_BODY)
@blueprint.response(200, CapabilitySchema)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=SVG, description="A histogram", success=True)
def post_capability() -> Response:
    """Return Cp, Cpk, Pp and Ppk with confidence intervals, against limits given or of a characteristic.

    With `Accept: image/svg+xml` the histogram of the values with limits, acceptance limits, mean and indices.
    """
    members, values = read(request, CapabilityBody)
    limits = limits_of(members)
    level = float(members["confidence_level"])
    found = capability(values, *limits.floats, members["subgroup_size"], level, members["distribution"])
    shown = {
        "subgroup_size": members["subgroup_size"],
        "confidence_level": level,
        "limits": limits.shown,
        "basis": basis(indices_basis()),
    }
    return answered(
        lambda: {**_shown(found), **shown, "notices": [*limits.notices, *found.notices]},
        lambda: drawn(members, values, limits, [*capability_remarks(found, level), *limits.notices], "Capability"),
    )


def _shown(found: Capability) -> dict[str, Any]:
    return {
        "count": found.count,
        "mean": found.mean,
        "standard_deviation_within": found.standard_deviation_within,
        "standard_deviation_overall": found.standard_deviation_overall,
        "within_method": found.within_method,
        "cp": _index(found.cp),
        "cpk": _index(found.cpk),
        "pp": _index(found.pp),
        "ppk": _index(found.ppk),
        "distribution": _distribution(found.distribution),
        "expected_nonconforming": dict(zip(("below_min", "above_max"), found.expected_beyond, strict=True)),
        "notices": list(found.notices),
    }


def _index(index: Index | None) -> dict[str, Any] | None:
    return None if index is None else {"value": index.value, "confidence_interval": list(index.confidence_interval)}


def _distribution(one: Distribution) -> dict[str, Any]:
    return {
        "name": one.name,
        "parameters": None if one.parameters is None else list(one.parameters),
        "percentiles": one.percentiles,
        "fit": None if one.fit is None else _fit(one.fit),
    }


def _fit(fit: Fit) -> dict[str, Any]:
    return {
        "test": "Anderson-Darling",
        "statistic": fit.statistic,
        "adjusted_statistic": fit.adjusted,
        "p_value": fit.p_value,
        "significance": SIGNIFICANCE,
        "rejected": fit.rejected,
        "basis": basis(normality_basis()),
    }
