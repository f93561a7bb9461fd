"""What the requests about a running process share: values in the order of production, and the limits of the product."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Any

import msgspec
import numpy as np
from flask import Request, Response
from marshmallow import Schema, validate
from msgspec import UNSET, Meta, Struct, UnsetType

from ...quantities import Bounds, NotUnderstood
from ...quantities.units import CODES, factor
from ...specification import specification
from ...statistics.subgroups import Floats
from ..http.answers import Answer, BasisAnswer, sent, shown
from ..http.bodies import json_body, problem
from ..http.caching import SVG, preferred
from ..http.fields import StrictDecimal, StrictString
from ..http.members import load_body
from ..http.presentation import bounds

_FLOATS = msgspec.json.Decoder(list[float])
#: As for limits: squares and sums of greater readings, or smaller ones, would leave the range of doubles.
LEAST_VALUE, LARGEST_VALUE = 1e-30, 1e30
LONGEST_TITLE = 100
_UNIT = validate.OneOf(CODES, error=f"is not one of {', '.join(CODES)}")


def unit_of_values() -> StrictString:
    """Return the field of the unit of the values."""
    return StrictString(validate=_UNIT)


def title() -> StrictString:
    """Return the field of what stands above a drawing.

    A control character or half a surrogate pair would make the drawing no XML.
    """
    return StrictString(
        validate=[
            validate.Length(1, LONGEST_TITLE, error=f"has 1 to {LONGEST_TITLE} characters"),
            validate.Predicate("isprintable", error="is one line of printable characters"),
        ]
    )


class LimitsBody(Schema):
    """The limits of the product: given, or those of a characteristic."""

    unit = unit_of_values()
    min = StrictDecimal(allow_none=True)
    max = StrictDecimal(allow_none=True)
    limits_unit = StrictString(validate=_UNIT)
    designation = StrictString(validate=validate.Length(1, 200, error="has 1 to 200 characters"))
    characteristic = StrictString(validate=validate.Length(1, 60, error="has 1 to 60 characters"))


class DrawnLimitsBody(LimitsBody):
    """Limits with those after a guard band, which are drawn and judge nothing here."""

    title = title()
    acceptance_min = StrictDecimal(allow_none=True)
    acceptance_max = StrictDecimal(allow_none=True)


def confidence_level() -> StrictDecimal:
    """Return the field of a confidence level."""
    within = validate.Range(Decimal("0.5"), Decimal("0.999"), error="is from 0.5 to 0.999")
    return StrictDecimal(load_default=Decimal("0.95"), validate=within)


_UNIT_SCHEMA = {"type": "string", "enum": list(CODES)}
VALUES: dict[str, Any] = {
    "values": {
        "type": "array",
        "items": {"type": "number"},
        "description": "Readings in the order of production, in one unit.",
    }
}
UNIT: dict[str, Any] = {"unit": {**_UNIT_SCHEMA, "description": "Of the values."}}
TITLE: dict[str, Any] = {
    "title": {"type": "string", "maxLength": LONGEST_TITLE, "description": "Stands above the drawing."}
}
LIMITS: dict[str, Any] = {
    **UNIT,
    "min": {"type": ["number", "null"]},
    "max": {"type": ["number", "null"]},
    "limits_unit": {**_UNIT_SCHEMA, "description": "Of min and max, where it is not that of the values."},
    "designation": {"type": "string", "description": "With `characteristic`, in place of min and max."},
    "characteristic": {"type": "string", "examples": ["width_across_flats"]},
}
DRAWN_LIMITS: dict[str, Any] = {
    **LIMITS,
    **TITLE,
    "acceptance_min": {"type": ["number", "null"], "description": "After a guard band, in the unit of the values."},
    "acceptance_max": {"type": ["number", "null"], "description": "Drawn only; nothing is judged by it."},
}
CONFIDENCE: dict[str, Any] = {"confidence_level": {"type": "number", "minimum": 0.5, "maximum": 0.999, "default": 0.95}}


def request_body(*properties: Mapping[str, Any]) -> dict[str, Any]:
    """Return what OpenAPI says of a body with `values` and other members."""
    members: dict[str, Any] = {}
    for one in (VALUES, *properties):
        members |= one
    schema = {"type": "object", "required": ["values"], "additionalProperties": False, "properties": members}
    return {"required": True, "content": {"application/json": {"schema": schema}}}


def read(request: Request, schema: type[Schema]) -> tuple[dict[str, Any], Floats]:
    """Return the members of a request and its values.

    Raises:
        Problem: no JSON, a member that cannot be used, or a value beyond all measure; `errors` points at it.
    """
    members, columns = load_body(json_body(request), schema, {"values": _FLOATS})
    if not columns["values"]:
        raise problem("no_readings", "values holds no reading", ("values",))
    values = np.array(columns["values"], dtype=np.float64)
    sizes = np.abs(values)
    beyond = np.flatnonzero((sizes > LARGEST_VALUE) | ((sizes < LEAST_VALUE) & (sizes > 0)))
    if beyond.size:
        detail = f"values/{beyond[0]}: a reading is 0, or of a size from {LEAST_VALUE:g} to {LARGEST_VALUE:g}"
        raise problem("out_of_range", detail, ("values", str(beyond[0])))
    return members, values


class StatedLimits(Struct, kw_only=True):
    """Limits of a characteristic, or those of the request: these have no basis, and no unit unless it gave one."""

    symbol: str | UnsetType = UNSET
    min: Decimal | None
    max: Decimal | None
    nominal: Decimal | UnsetType | None = UNSET
    unit: Annotated[str | None, Meta(examples=["mm"])]
    basis: BasisAnswer | UnsetType = UNSET


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits in the unit of the values; `shown` is how the answer states them."""

    low: Decimal | None
    high: Decimal | None
    shown: StatedLimits
    unit: str | None
    #: What the limits are of, where a designation says it.
    of: str | None = None
    #: What has to be said of limits that nobody saw in print, or on which the sources disagree.
    notices: tuple[str, ...] = ()

    @property
    def floats(self) -> tuple[float | None, float | None]:
        """The doubles nearest to both limits."""
        return (
            None if self.low is None else float(self.low),
            None if self.high is None else float(self.high),
        )


def limits_of(members: Mapping[str, Any]) -> Limits:
    """Return the limits that a request gives, or those of the characteristic that it names.

    Raises:
        NotUnderstood: both or half of that, or min not below max. Others: as `specification`.
    """
    found = _given(members) if "designation" not in members else _of_characteristic(members)
    if found.low is not None and found.high is not None and found.low >= found.high:
        text = f"min {members.get('min')} is not below max {members.get('max')}"
        raise NotUnderstood(text, member="min", code="contradiction")
    return found


def _given(members: Mapping[str, Any]) -> Limits:
    if "characteristic" in members:
        raise NotUnderstood("characteristic needs designation", member="designation", code="missing_member")
    low, high, unit = members.get("min"), members.get("max"), members.get("unit")
    given = members.get("limits_unit", unit)
    if given is not None and unit is None:
        raise NotUnderstood("limits_unit needs the unit of the values", member="unit", code="missing_member")
    step = Fraction(1) if given is None or unit is None else factor(given, unit, "limits_unit")
    return Limits(_times(low, step), _times(high, step), StatedLimits(min=low, max=high, unit=given), unit)


def _of_characteristic(members: Mapping[str, Any]) -> Limits:
    for name in ("min", "max", "limits_unit"):
        if name in members:
            text = "give min and max, or designation and characteristic"
            raise NotUnderstood(text, member=name, code="contradiction")
    designation, standing = _characteristic(members)
    unit = members.get("unit", standing.unit)
    step = 1 / factor(unit, standing.unit)
    of = f"{designation}: {members['characteristic'].replace('_', ' ')}"
    source = standing.basis
    told = (f"The limits are those of {source.cited}, {source.clause}, {source.doubt}",)
    notices = told if source.doubt else ()
    return Limits(
        _times(standing.min, step), _times(standing.max, step), shown(StatedLimits, bounds(standing)), unit, of, notices
    )


def _characteristic(members: Mapping[str, Any]) -> tuple[str, Bounds]:
    id = members.get("characteristic")
    if id is None:
        raise NotUnderstood("designation needs characteristic", member="characteristic", code="missing_member")
    specified = specification(members["designation"])
    found = specified.characteristics.get(id)
    if found is None or found.kind != "measured" or found.bounds is None:
        text = f"{id!r} is no measured characteristic of {specified.designation}"
        raise NotUnderstood(text, member="characteristic", code="unknown_characteristic")
    return specified.designation, found.bounds


def _times(limit: Decimal | None, step: Fraction) -> Decimal | None:
    """Return a limit in another unit; in its own it keeps the digits that were written."""
    return limit if limit is None or step == 1 else (limit * step.numerator / step.denominator).normalize()


def answered(answer: Callable[[], Answer], drawing: Callable[[], str]) -> Response:
    """Return the answer as JSON, or its drawing where the client prefers `image/svg+xml`."""
    as_drawing = preferred(SVG) == SVG
    response = Response(drawing(), mimetype=SVG) if as_drawing else sent(answer())
    response.vary.add("Accept")
    return response
