"""GET /v1/look-alikes: former standards, what replaced them and how that is known, and where the two differ."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any

from flask import Response
from marshmallow import Schema
from msgspec import Meta, Struct

from ...designations import in_partner, parse_product, size_in
from ...products import LookAlike, look_alike_in, look_alikes
from ...products.look_alikes import Difference, differences, told
from ...quantities import UnknownName
from ...threads import MetricSize
from ..http.answers import Answer, BasisAnswer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.presentation import basis
from ..http.queries import query, text

blueprint = new_blueprint("look_alikes", "Former standards that must not be mixed with the ISO ones")


class LookAlikesQuery(Schema):
    """Which ones; all of them where nothing is named."""

    designation = text("A designation in a former standard or in the ISO one.", "DIN 933 - M10x60 - 8.8")


class Nominal(Struct):
    """One nominal dimension."""

    value: Decimal
    unit: Annotated[str, Meta(examples=["mm"])]
    basis: BasisAnswer


class LookAlikeDifference(Struct, kw_only=True):
    """A limit in which the two standards differ."""

    size: Annotated[str, Meta(examples=["M10"])]
    dimension: Annotated[str, Meta(examples=["width_across_flats"])]
    symbol: Annotated[str, Meta(examples=["s"])]
    limit: Annotated[str, Meta(extra_json_schema={"enum": ["max", "min", "nominal"]})]
    former: Nominal
    partner: Nominal


class LookAlikeAnswer(Struct, kw_only=True):
    """A former standard with what replaced it."""

    former_standard: Annotated[str, Meta(examples=["DIN 933"])]
    former_held: Annotated[bool, described("Whether the former standard itself is held as a product.")]
    partner: Annotated[str | None, described("null where no standard replaced it.", "ISO 4017")]
    partner_held: Annotated[bool, described("Whether the partner is held; else nothing is compared.")]
    basis: Annotated[BasisAnswer, described("What names the partner, and how many sources.")]
    partner_designation: Annotated[
        str | None, described("What was asked, in the partner; another part where they differ.")
    ]
    differences: list[LookAlikeDifference]
    detail: Annotated[str, described("The same in a sentence.")]


class LookAlikes(Answer, kw_only=True):
    """Look-alikes; an empty list for a product that has none."""

    size: str | None
    look_alikes: list[LookAlikeAnswer]


@blueprint.route("/look-alikes")
@look_up
@query(blueprint, LookAlikesQuery)
@answers(blueprint, LookAlikes)
def get_look_alikes(arguments: dict[str, Any]) -> Response:
    """Say what replaced a former standard and which limits differ, so that nobody mixes them.

    A size of which no difference is held is not thereby equal.
    """
    asked = arguments.get("designation")
    found, size = _asked(asked) if asked is not None else (look_alikes(), None)
    return sent(LookAlikes(size=size, look_alikes=[_shown(one, size, asked) for one in found]))


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


def _shown(found: LookAlike, size: str | None, asked: str | None) -> LookAlikeAnswer:
    former_asked = asked is not None and look_alike_in(asked) is not None
    return LookAlikeAnswer(
        former_standard=found.former,
        former_held=found.held is not None,
        partner=found.partner_name(size),
        partner_held=found.partner(size) is not None,
        basis=basis(found.basis),
        partner_designation=in_partner(found, asked, size) if asked is not None and former_asked else None,
        differences=[_difference(one) for one in differences(found, size)],
        detail=told(found, size),
    )


def _difference(one: Difference) -> LookAlikeDifference:
    former = Nominal(one.former, "mm", basis(one.former_basis))
    return shown(LookAlikeDifference, one, former=former, partner=Nominal(one.partner, "mm", basis(one.partner_basis)))
