"""GET /v1/pairing: which nut classes, styles and grades hold a bolt."""

from __future__ import annotations

from typing import Any

from flask import Response
from marshmallow import Schema, fields

from ...mechanical.pairing import NutPair
from ...specification.pairing import pairing_of
from ..http.api import blueprint as new_blueprint
from ..http.caching import JSON, look_up
from ..http.presentation import basis, bounds, encode
from ..http.queries import query, text
from ..http.schemas import AnswerSchema, BasisSchema, BoundsSchema
from .coating_limits import PairingSchema as ThreadPairingSchema

blueprint = new_blueprint("pairing", "Which nuts hold a bolt")


class PairingQuery(Schema):
    """What to look up."""

    bolt = text(
        "A bolt: a product designation, or thread and class as `M10 - 8.8` or `1/2-13 - SAE J429 5`.",
        "M10 - 8.8",
        required=True,
    )


class NutSchema(Schema):
    """A nut beside the bolt."""

    nut = fields.String(metadata={"example": "8"})
    standard = fields.String(metadata={"example": "ISO 898-2"})
    edition = fields.String()
    style = fields.Integer(allow_none=True, metadata={"description": "ISO 898-2: 0 thin, 1 regular, 2 high."})
    form = fields.String(allow_none=True, metadata={"enum": ["hex", "heavy_hex", None]})
    holds = fields.Boolean(metadata={"description": "The bolt breaks before the thread strips."})
    reason = fields.String()
    proof_load = fields.Nested(BoundsSchema, allow_none=True)
    warnings = fields.List(fields.String())
    basis = fields.Nested(BasisSchema)


class BoltPairingSchema(AnswerSchema):
    """Every nut of the standards that go with the bolt, those that hold first."""

    bolt = fields.String(metadata={"example": "M10 - 8.8"})
    thread = fields.String()
    property_class = fields.String()
    tensile_load = fields.Nested(BoundsSchema, allow_none=True)
    nuts = fields.List(fields.Nested(NutSchema))
    threads = fields.List(
        fields.Nested(ThreadPairingSchema),
        metadata={"description": "Of a galvanized bolt: which tolerance positions may mate."},
    )
    notices = fields.List(fields.String())


@blueprint.route("/pairing")
@look_up
@query(blueprint, PairingQuery)
@blueprint.response(200, BoltPairingSchema)
def get_pairing(arguments: dict[str, Any]) -> Response:
    """Return which nuts hold a bolt, and warn of the known exceptions."""
    found = pairing_of(arguments["bolt"])
    load = found.pairing.tensile_load
    answer = {
        "bolt": found.bolt.canonical,
        "thread": found.pairing.thread,
        "property_class": found.pairing.bolt,
        "tensile_load": None if load is None else bounds(load),
        "nuts": [_nut(one) for one in found.pairing.nuts],
        "threads": [
            {
                "external": one.external,
                "internal": one.internal,
                "may_mate": one.may_mate,
                "reason": one.reason,
                "basis": basis(one.basis),
            }
            for one in found.threads
        ],
        "notices": list(found.notices),
    }
    return Response(encode(answer), mimetype=JSON)


def _nut(pair: NutPair) -> dict[str, Any]:
    return {
        "nut": pair.nut,
        "standard": pair.standard,
        "edition": pair.edition,
        "style": pair.style,
        "form": pair.form,
        "holds": pair.holds,
        "reason": pair.reason,
        "proof_load": None if pair.proof_load is None else bounds(pair.proof_load),
        "warnings": list(pair.warnings),
        "basis": basis(pair.basis),
    }
