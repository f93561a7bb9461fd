"""GET /v1/hardness-conversion: an estimate on another scale, never a verdict."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response
from marshmallow import Schema, fields, validate
from msgspec import Struct

from ...mechanical.hardness_conversion import SCALES, TABLE_NAMES, convert_hardness
from ..http.answers import Answer, BasisAnswer, answers, described, sent
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.presentation import basis
from ..http.queries import query

blueprint = new_blueprint("hardness_conversion", "Estimates of one hardness scale from another")
_NUMBER = r"[0-9]{1,4}(?:[.,][0-9]{1,3})?"


def _scale(name: str) -> fields.String:
    return fields.String(
        required=True,
        data_key=name,
        validate=validate.OneOf(SCALES, error=f"is not one of {', '.join(SCALES)}"),
        metadata={"description": "A hardness scale, or MPa for tensile strength.", "example": "HV"},
    )


class HardnessConversionQuery(Schema):
    """What to estimate."""

    value = fields.String(
        required=True,
        validate=validate.Regexp(f"{_NUMBER}$", error="is a number such as 320 or 32.5"),
        metadata={"description": "The value as measured.", "example": "320"},
    )
    given = _scale("from")
    wanted = _scale("to")
    table = fields.String(
        load_default=TABLE_NAMES[0],
        validate=validate.OneOf(TABLE_NAMES, error=f"is not one of {', '.join(TABLE_NAMES)}"),
        metadata={"description": "Conversion table; it decides for which materials the estimate is meant."},
    )


class Point(Struct, rename={"given": "from", "wanted": "to"}):
    """A row of the table at or beside the value."""

    given: Decimal
    wanted: Decimal


class HardnessConversion(Answer, kw_only=True, rename={"given": "from", "wanted": "to"}):
    """An estimate. It is never used for a verdict."""

    value: Annotated[Decimal, described("As measured.", 320)]
    given: Annotated[str, described("The scale measured.", "HV")]
    wanted: Annotated[str, described("The scale or MPa asked for.", "HRC")]
    estimate: Annotated[Decimal, described("By the table, straight between its rows.", 32.2)]
    unit: str
    is_estimate: Annotated[bool, described("Always true: acceptance is judged on the scale measured.")]
    table: Annotated[str, described("The conversion table.", "ISO 18265 A.1")]
    material: str
    between: list[Point]
    basis: BasisAnswer
    notices: list[str]


@blueprint.route("/hardness-conversion")
@look_up
@query(blueprint, HardnessConversionQuery)
@answers(blueprint, HardnessConversion)
def get_hardness_conversion(arguments: dict[str, Any]) -> Response:
    """Estimate a hardness on another scale, or tensile strength, by a conversion table."""
    value = Decimal(arguments["value"].replace(",", "."))
    found = convert_hardness(value, arguments["given"], arguments["wanted"], arguments["table"])
    return sent(
        HardnessConversion(
            value=found.value,
            given=found.given,
            wanted=found.wanted,
            estimate=found.estimate,
            unit=found.wanted,
            is_estimate=True,
            table=found.table,
            material=found.material,
            between=[Point(one.given, one.wanted) for one in found.points],
            basis=basis(found.basis),
            notices=list(found.notices),
        )
    )
