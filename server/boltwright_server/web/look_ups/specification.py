"""GET /v1/specification: everything required of one designation, as JSON or as a printable sheet."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any, TypeVar

from flask import Response, render_template
from marshmallow import Schema, fields, validate
from msgspec import UNSET, Meta, Struct, UnsetType

from ...documents import part_drawing, sheet_of, thread_drawing
from ...quantities import NotCovered
from ...specification import GROUPS, Characteristic, specification
from ...specification import Specification as Found
from ...standards.fingerprint import fingerprint
from ..http.answers import Answer, BasisAnswer, BoundsAnswer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import HTML, SVG, look_up, preferred
from ..http.presentation import all_bounds, basis, bounds
from ..http.queries import designation, query
from .coating_presentation import CoatingMeaning, coating_limits_shown
from .gauge_sizes import GaugeAnswer, gauges_shown
from .mechanical_minimums import MarkAnswer, TestAnswer, test_shown
from .standards import InForceAnswer

blueprint = new_blueprint("specification", "Everything required of one designation")
VIEWS = ("part", "thread")
PAGE = {"type": "string"}
S = TypeVar("S", bound="Specification")


class SpecificationQuery(Schema):
    """What to look up."""

    designation = designation("ISO 4014 - M10x60 - 8.8")


class DrawingQuery(SpecificationQuery):
    """Which drawing of what."""

    view = fields.String(
        load_default="part",
        validate=validate.OneOf(VIEWS, error=f"is one of {', '.join(VIEWS)}"),
        metadata={"description": "The part with its dimensions, or the tolerance zones of its thread."},
    )


class LaterEdition(Struct):
    """A standard whose figures are of the edition `used`; another is in force as far as known."""

    standard: Annotated[str, Meta(examples=["ISO 7040"])]
    used: Annotated[str, Meta(examples=["2012"])]
    in_force: InForceAnswer


class CharacteristicAnswer(Struct, kw_only=True):
    """One requirement: bounds where it is measured, `allowed` where it is an attribute or a category."""

    symbol: str | None
    min: Decimal | None
    max: Decimal | None
    nominal: Decimal | None
    unit: Annotated[str | None, described("null where nothing is measured.")]
    basis: BasisAnswer
    kind: Annotated[str, Meta(extra_json_schema={"enum": ["measured", "attribute", "category"]})]
    group: Annotated[str, Meta(extra_json_schema={"enum": list(GROUPS)})]
    instrument: str
    destructive: bool
    mandatory: bool
    allowed: list[Any]
    state: Annotated[
        str | None,
        Meta(
            description="Coated products: when it holds; null for a plain product.",
            extra_json_schema={"enum": ["before_coating", "as_delivered", None]},
        ),
    ]
    scales: Annotated[dict[str, BoundsAnswer] | UnsetType, described("Hardness only: the limits of each scale")] = UNSET
    over_core: Annotated[
        BoundsAnswer | UnsetType,
        described("Surface hardness only: how far it may lie above the core of its piece."),
    ] = UNSET


class ItemAnswer(Struct, kw_only=True):
    """What the designation names."""

    kind: str
    standard: str
    edition: str
    title: str
    thread: str
    tolerance_class: str | None
    length: Decimal | None
    product_grade: str | None
    property_class: str | None
    coating: str | None


class Specification(Answer, kw_only=True):
    """Everything required of one designation."""

    designation: Annotated[str, described("Canonical.", "ISO 4014 - M10x60 - 8.8")]
    item: ItemAnswer
    characteristics: dict[str, CharacteristicAnswer]
    reference_dimensions: Annotated[dict[str, BoundsAnswer], described("Dimensions for reference; not judged")]
    mass_per_1000: Annotated[
        BoundsAnswer | None, described("kg, nominal, from the geometry; null where no form is held.")
    ]
    loads: Annotated[dict[str, BoundsAnswer], described("tensile_load, proof_load")]
    gauges: list[GaugeAnswer]
    gauge_standard: str | None
    tests: list[TestAnswer]
    marking: list[MarkAnswer]
    package_marking: MarkAnswer | None
    coating: Annotated[CoatingMeaning | None, described("As in /v1/coating-limits; null for a plain product.")]
    not_covered: list[str]
    cautions: list[str]
    notices: list[str]
    editions: Annotated[
        list[LaterEdition],
        described("Standards of which a later edition is in force than the one the figures are from."),
    ]


@blueprint.route("/specification")
@look_up
@query(blueprint, SpecificationQuery)
@answers(blueprint, Specification)
@blueprint.alt_response(200, schema=PAGE, content_type=HTML, description="A printable sheet", success=True)
def get_specification(arguments: dict[str, Any]) -> Response:
    """Return every requirement of a product or a thread; with `Accept: text/html` as a printable sheet."""
    found = specification(arguments["designation"])
    if preferred() == HTML:
        return _page(found)
    return sent(specification_shown(Specification, found))


@blueprint.route("/specification/drawing.svg")
@look_up
@query(blueprint, DrawingQuery)
@blueprint.response(200, {"type": "string"}, content_type=SVG, description="A drawing")
def get_drawing(arguments: dict[str, Any]) -> Response:
    """Return the drawing of a part, or of its thread's tolerance zones, to scale."""
    found = specification(arguments["designation"])
    view = arguments["view"]
    drawing = part_drawing(found) if view == "part" else thread_drawing(found)
    if drawing is None:
        raise NotCovered(f"no drawing of the {view} is held for {found.designation}", member="view")
    return Response(drawing, mimetype=SVG)


def _page(found: Found) -> Response:
    """Return the printable sheet: every figure a link to its basis. It holds no date: same fingerprint, same bytes."""
    page = render_template("specification.html", sheet=sheet_of(found), fingerprint=fingerprint())
    return Response(page, mimetype=HTML)


def specification_shown(kind: type[S], found: Found, **members: Any) -> S:
    """Return a specification as answers show it; `members` are those that another answer adds."""
    gauges = gauges_shown([found.gauges]) if found.gauges is not None else None
    return kind(
        designation=found.designation,
        item=shown(ItemAnswer, found.item),
        characteristics={id: characteristic_shown(one) for id, one in found.characteristics.items()},
        reference_dimensions=_reference(found),
        mass_per_1000=_mass(found),
        loads=all_bounds(found.mechanical.loads) if found.mechanical is not None else {},
        gauges=gauges["gauges"] if gauges else [],
        gauge_standard=gauges["gauge_standard"] if gauges else None,
        tests=[test_shown(test) for test in found.tests],
        marking=[shown(MarkAnswer, one) for one in found.marking],
        package_marking=None if found.package is None else shown(MarkAnswer, found.package),
        coating=None if found.coating is None else coating_limits_shown(found.coating),
        not_covered=list(found.not_covered) + ([] if found.tolerance is None else _gauges_not_held(gauges)),
        cautions=list(found.cautions),
        notices=list(found.notices) + (gauges["notices"] if gauges else []),
        editions=[shown(LaterEdition, one) for one in found.editions],
        **members,
    )


def _mass(found: Found) -> BoundsAnswer | None:
    mass = None if found.dimensions is None else found.dimensions.mass_per_1000
    return None if mass is None else bounds(mass)


def _gauges_not_held(gauges: dict[str, Any] | None) -> list[str]:
    if gauges is None:
        return ["Gauges: ISO 1502 has no gauge tolerances for this thread tolerance."]
    return [f"Gauge {one.id}: {one.reason}." for one in gauges["not_covered"]]


def _reference(found: Found) -> dict[str, Any]:
    if found.dimensions is None:
        return {}
    return all_bounds({id: one for id, one in found.dimensions.dimensions.items() if id not in found.characteristics})


def characteristic_shown(one: Characteristic) -> CharacteristicAnswer:
    """Return a characteristic as answers show it."""
    limits = None if one.bounds is None else bounds(one.bounds)
    return CharacteristicAnswer(
        symbol=None if limits is None else limits.symbol,
        min=None if limits is None else limits.min,
        max=None if limits is None else limits.max,
        nominal=None if limits is None else limits.nominal,
        unit=None if limits is None else limits.unit,
        basis=basis(one.basis) if limits is None else limits.basis,
        kind=one.kind,
        group=one.group,
        instrument=one.instrument,
        destructive=one.destructive,
        mandatory=one.mandatory,
        allowed=list(one.allowed),
        state=one.state,
        scales=all_bounds(one.scales) if one.scales else UNSET,
        over_core=bounds(one.over_core) if one.over_core is not None else UNSET,
    )
