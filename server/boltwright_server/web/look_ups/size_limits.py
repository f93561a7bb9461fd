"""GET /v1/size-limits: limits of a feature at any nominal size, by its product grade or by an ISO 286 class."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from flask import Response
from marshmallow import Schema, fields, validate

from ...products.feature_limits import FEATURES, Asked, class_limits, feature_limits
from ...quantities import Bounds, Contradiction, NotCovered, NotUnderstood, asked_as
from ..http.answers import Answer, BoundsAnswer, answers, sent
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.presentation import bounds
from ..http.queries import length_of, query, text, unit

blueprint = new_blueprint("size_limits", "Limits by product grade or ISO 286 class, at any nominal size")
_BESIDE = ("diameter", "thickness")
_GRADE_QUERY = ("feature", "grade", *_BESIDE)


class SizeLimitsQuery(Schema):
    """A feature in a product grade, or a tolerance class."""

    nominal = text("Nominal size in mm.", "17", required=True)
    feature = fields.String(
        validate=validate.OneOf(tuple(FEATURES), error=f"is one of {', '.join(FEATURES)}"),
        metadata={"description": "A dimension; e and dw start from the width across flats, kw from k, mw from m."},
    )
    grade = fields.String(
        validate=validate.OneOf(("A", "B", "C"), error="is A, B or C"), metadata={"description": "Product grade."}
    )
    diameter = text("Thread diameter in mm: chooses the class of a nut's height.", "12")
    thickness = text("Nominal thickness in mm: chooses the classes of a washer.", "2.5")
    tolerance_class = text("An ISO 286 class instead of feature and grade.", "h13")
    unit = unit()


class SizeLimits(Answer, kw_only=True):
    """The limits."""

    nominal: Decimal
    feature: str | None
    grade: str | None
    tolerance_class: str | None
    limits: BoundsAnswer


@blueprint.route("/size-limits")
@look_up
@query(blueprint, SizeLimitsQuery)
@answers(blueprint, SizeLimits)
def get_size_limits(arguments: dict[str, Any]) -> Response:
    """Return limits by the rules of ISO 4759-1, ISO 4759-3 and ISO 286-1, for sizes that no product table lists.

    A product table that departs from its rule wins: ask `/v1/product-dimensions` for products.
    """
    nominal = _number(arguments, "nominal")
    assert nominal is not None
    return sent(
        SizeLimits(
            nominal=nominal,
            feature=arguments.get("feature"),
            grade=arguments.get("grade"),
            tolerance_class=arguments.get("tolerance_class"),
            limits=bounds(_limits(arguments, nominal), arguments.get("unit")),
        )
    )


def _limits(arguments: dict[str, Any], nominal: Decimal) -> Bounds:
    if "tolerance_class" in arguments:
        if both := [name for name in _GRADE_QUERY if name in arguments]:
            raise Contradiction(f"a tolerance class needs no {both[0]}", member=both[0])
        with asked_as("tolerance_class"):
            return class_limits(arguments["tolerance_class"].strip(), nominal)
    for name in ("feature", "grade"):
        if name not in arguments:
            raise NotUnderstood("name a feature and a grade, or a tolerance class", member=name, code="missing_member")
    feature = arguments["feature"]
    beside = FEATURES[feature].beside
    for name in _BESIDE:
        if name in arguments and name != beside:
            raise Contradiction(f"the limits of {feature} do not depend on a {name}", member=name)
    chooses = None if beside is None else _number(arguments, beside)
    try:
        return feature_limits(feature, Asked(arguments["grade"], nominal, chooses))
    except NotCovered as refusal:
        refusal.member = refusal.member or "nominal"
        raise


def _number(arguments: dict[str, Any], name: str) -> Decimal | None:
    with asked_as(name):
        found = length_of(arguments.get(name))
    if found is not None and found <= 0:
        raise NotUnderstood(f"{name} must be above 0 mm, not {found}", member=name, code="out_of_range")
    return found
