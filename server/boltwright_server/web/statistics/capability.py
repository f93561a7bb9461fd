"""POST /v1/capability: capability and performance indices of values in the order of production."""

from __future__ import annotations

from typing import Annotated

from flask import Response, request
from marshmallow import validate
from msgspec import Meta, Struct

from ...documents.charts import capability_remarks
from ...statistics import DISTRIBUTIONS, Capability, Distribution, Fit, capability
from ...statistics.goodness_of_fit import SIGNIFICANCE
from ...statistics.sources import indices_basis, normality_basis
from ..http.answers import Answer, BasisAnswer, answers, described, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import SVG
from ..http.fields import StrictInteger, StrictString
from ..http.presentation import basis
from .bodies import (
    CONFIDENCE,
    DRAWN_LIMITS,
    DrawnLimitsBody,
    Limits,
    StatedLimits,
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


class IndexAnswer(Struct):
    """An index with its confidence interval."""

    value: float
    confidence_interval: Annotated[
        tuple[float | None, float | None], described("null where the distribution is empirical.")
    ]


class FitAnswer(Struct, kw_only=True):
    """Whether the values may come from the distribution that the indices suppose."""

    test: Annotated[str, Meta(examples=["Anderson-Darling"])]
    statistic: float
    adjusted_statistic: Annotated[float, described("For the number of values.")]
    p_value: Annotated[float | None, described("null where only the 5 % point is tabulated.")]
    significance: float
    rejected: bool
    basis: BasisAnswer


class PercentilesAnswer(Struct):
    """Where 0.135 %, 50 % and 99.865 % of the distribution lie below."""

    lower: float
    median: float
    upper: float


class DistributionAnswer(Struct, kw_only=True):
    """The distribution that the indices of performance suppose."""

    name: Annotated[str, Meta(extra_json_schema={"enum": list(DISTRIBUTIONS)})]
    parameters: Annotated[
        tuple[float, float] | None,
        described(
            "normal: mean and standard deviation; log-normal: those of the logarithms; weibull: shape and scale."
        ),
    ]
    percentiles: PercentilesAnswer | None
    fit: FitAnswer | None


class ExpectedShares(Struct):
    """Shares of the distribution; null where there is no limit."""

    below_min: float | None
    above_max: float | None


class CapabilityIndices(Answer, kw_only=True):
    """Indices of a process."""

    count: int
    mean: float
    standard_deviation_within: float | None
    standard_deviation_overall: float | None
    within_method: str
    cp: IndexAnswer | None
    cpk: IndexAnswer | None
    pp: IndexAnswer | None
    ppk: IndexAnswer | None
    distribution: DistributionAnswer
    expected_nonconforming: ExpectedShares
    notices: list[str]
    subgroup_size: int
    confidence_level: float
    limits: StatedLimits
    basis: BasisAnswer


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
@answers(blueprint, CapabilityIndices)
@blueprint.alt_response(200, schema={"type": "string"}, content_type=SVG, description="A histogram", success=True)
def post_capability() -> Response:
    """Return Cp, Cpk, Pp and Ppk with confidence intervals, against limits given or of a characteristic.

    With `Accept: image/svg+xml` the histogram of the values with limits, acceptance limits, mean and indices.
    """
    members, values = read(request, CapabilityBody)
    limits = limits_of(members)
    level = float(members["confidence_level"])
    found = capability(values, *limits.floats, members["subgroup_size"], level, members["distribution"])
    return answered(
        lambda: _indices(found, members["subgroup_size"], level, limits),
        lambda: drawn(members, values, limits, [*capability_remarks(found, level), *limits.notices], "Capability"),
    )


def _indices(found: Capability, subgroup_size: int, level: float, limits: Limits) -> CapabilityIndices:
    return shown(
        CapabilityIndices,
        found,
        distribution=_distribution(found.distribution),
        expected_nonconforming=ExpectedShares(*found.expected_beyond),
        notices=[*limits.notices, *found.notices],
        subgroup_size=subgroup_size,
        confidence_level=level,
        limits=limits.shown,
        basis=basis(indices_basis()),
    )


def _distribution(one: Distribution) -> DistributionAnswer:
    return shown(DistributionAnswer, one, fit=None if one.fit is None else _fit(one.fit))


def _fit(fit: Fit) -> FitAnswer:
    return shown(
        FitAnswer,
        fit,
        test="Anderson-Darling",
        adjusted_statistic=fit.adjusted,
        significance=SIGNIFICANCE,
        basis=basis(normality_basis()),
    )
