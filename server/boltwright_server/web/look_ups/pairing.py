"""GET /v1/pairing: which nut classes, styles and grades hold a bolt."""

from __future__ import annotations

from typing import Annotated, Any

from flask import Response
from marshmallow import Schema
from msgspec import Struct

from ...specification.pairing import pairing_of
from ..http.answers import Answer, BasisAnswer, BoundsAnswer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.queries import query, text
from .coating_presentation import ThreadPairing

blueprint = new_blueprint("pairing", "Which nuts hold a bolt")


class PairingQuery(Schema):
    """What to look up."""

    bolt = text(
        "A bolt: a product designation, or thread and class as `M10 - 8.8` or `1/2-13 - SAE J429 5`.",
        "M10 - 8.8",
        required=True,
    )


class Nut(Struct, kw_only=True):
    """A nut beside the bolt."""

    nut: Annotated[str, described("Its class or grade.", "8")]
    standard: Annotated[str, described("As the trade cites it.", "ISO 898-2")]
    edition: str
    style: Annotated[int | None, described("ISO 898-2: 0 thin, 1 regular, 2 high.")]
    form: Annotated[str | None, described("hex or heavy_hex, for nuts of ASTM A194 and A563.")]
    holds: Annotated[bool, described("The bolt breaks before the thread strips.")]
    reason: str
    proof_load: BoundsAnswer | None
    warnings: list[str]
    basis: BasisAnswer


class BoltPairing(Answer, kw_only=True):
    """Every nut of the standards that go with the bolt, those that hold first."""

    bolt: Annotated[str, described("Canonical.", "M10 - 8.8")]
    thread: str
    property_class: str
    tensile_load: BoundsAnswer | None
    nuts: list[Nut]
    threads: Annotated[list[ThreadPairing], described("Of a galvanized bolt: which tolerance positions may mate.")]
    notices: list[str]


@blueprint.route("/pairing")
@look_up
@query(blueprint, PairingQuery)
@answers(blueprint, BoltPairing)
def get_pairing(arguments: dict[str, Any]) -> Response:
    """Return which nuts hold a bolt, and warn of the known exceptions."""
    found = pairing_of(arguments["bolt"])
    return sent(
        shown(
            BoltPairing,
            found.pairing,
            bolt=found.bolt.canonical,
            property_class=found.pairing.bolt,
            threads=found.threads,
            notices=found.notices,
        )
    )
