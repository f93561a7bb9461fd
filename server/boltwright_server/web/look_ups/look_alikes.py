"""GET /v1/look-alikes: former standards, what replaced them and how that is known, and where the two differ."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields

from ...designations import in_partner, parse_product, size_in
from ...products import LookAlike, look_alike_in, look_alikes
from ...products.look_alikes import Difference, differences, told
from ...quantities import UnknownName
from ...threads import MetricSize
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.presentation import basis, encode
from ..http.queries import query, text
from ..http.schemas import AnswerSchema, BasisSchema

blueprint = new_blueprint("look_alikes", "Former standards that must not be mixed with the ISO ones")


class LookAlikesQuery(Schema):
    """Which ones; all of them where nothing is named."""

    designation = text("A designation in a former standard or in the ISO one.", "DIN 933 - M10x60 - 8.8")


class NominalSchema(Schema):
    """One nominal dimension."""

    value = fields.Float()
    unit = fields.String(metadata={"example": "mm"})
    basis = fields.Nested(BasisSchema)


class DifferenceSchema(Schema):
    """A limit in which the two standards differ."""

    size = fields.String(metadata={"example": "M10"})
    dimension = fields.String(metadata={"example": "width_across_flats"})
    symbol = fields.String(metadata={"example": "s"})
    limit = fields.String(metadata={"enum": ["max", "min", "nominal"]})
    former = fields.Nested(NominalSchema)
    partner = fields.Nested(NominalSchema)


class LookAlikeSchema(Schema):
    """A former standard with what replaced it."""

    former_standard = fields.String(metadata={"example": "DIN 933"})
    former_held = fields.Boolean(metadata={"description": "Whether the former standard itself is held as a product."})
    partner = fields.String(
        allow_none=True, metadata={"example": "ISO 4017", "description": "null where no standard replaced it."}
    )
    partner_held = fields.Boolean(metadata={"description": "Whether the partner is held; else nothing is compared."})
    basis = fields.Nested(BasisSchema, metadata={"description": "What names the partner, and how many sources."})
    partner_designation = fields.String(
        allow_none=True,
        metadata={"description": "What was asked, in the partner; another part where they differ."},
    )
    differences = fields.List(fields.Nested(DifferenceSchema))
    detail = fields.String(metadata={"description": "The same in a sentence."})


class LookAlikesSchema(AnswerSchema):
    """Look-alikes; an empty list for a product that has none."""

    size = fields.String(allow_none=True)
    look_alikes = fields.List(fields.Nested(LookAlikeSchema))


@blueprint.route("/look-alikes")
@look_up
@query(blueprint, LookAlikesQuery)
@blueprint.response(200, LookAlikesSchema)
def get_look_alikes(arguments: dict[str, Any]) -> Response:
    """Say what replaced a former standard and which limits differ, so that nobody mixes them.

    A size of which no difference is held is not thereby equal.
    """
    asked = arguments.get("designation")
    found, size = _asked(asked) if asked is not None else (look_alikes(), None)
    shown = [_shown(one, size, asked) for one in found]
    return Response(encode({"size": size, "look_alikes": shown}), mimetype=JSON)


def _asked(designation: str) -> tuple[tuple[LookAlike, ...], str | None]:
    """The former standard that a designation names, or every one whose ISO partner it names."""
    former = look_alike_in(designation)
    if former is not None:
        return (former,), size_in(designation) or _size(in_partner(former, designation))
    wanted = parse_product(designation)
    return tuple(one for one in look_alikes() if wanted.product.id in one.partners), _size(wanted.canonical)


def _size(designation: str | None) -> str | None:
    """The thread of a designation in an ISO standard; the diameter of a washer counts as its thread."""
    if designation is None:
        return None
    try:
        size = parse_product(designation).size
    except UnknownName:
        return None
    if not isinstance(size, MetricSize):
        return None
    return size.designation


def _shown(found: LookAlike, size: str | None, asked: str | None) -> dict[str, Any]:
    former_asked = asked is not None and look_alike_in(asked) is not None
    return {
        "former_standard": found.former,
        "former_held": found.held is not None,
        "partner": found.partner_name(size),
        "partner_held": found.partner(size) is not None,
        "basis": basis(found.basis),
        "partner_designation": in_partner(found, asked, size) if asked is not None and former_asked else None,
        "differences": [_difference(one) for one in differences(found, size)],
        "detail": told(found, size),
    }


def _difference(one: Difference) -> dict[str, Any]:
    return {
        "size": one.size,
        "dimension": one.dimension,
        "symbol": one.symbol,
        "limit": one.limit,
        "former": {"value": one.former, "unit": "mm", "basis": basis(one.former_basis)},
        "partner": {"value": one.partner, "unit": "mm", "basis": basis(one.partner_basis)},
    }
