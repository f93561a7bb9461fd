"""GET /v1/coating-limits: room for coating on a thread, limits before and after it, gauges, pairs, loads, cautions."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any, TypeVar

from flask import Response
from marshmallow import Schema

from ...coating import Coating, coating_limits
from ...designations import ProductDesignation, names_thread, parse_coating, parse_product, parse_thread
from ...products import dimensions
from ...quantities import Contradiction, NotCovered
from ...threads import ThreadClass, ThreadSize, find_class
from ..http.answers import Answer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import look_up
from ..http.queries import designation, length_of, query, text
from .coating_presentation import CoatingMeaning, coating_meaning
from .thread_limits import class_missing

blueprint = new_blueprint("coating_limits", "Coatings of threads: room, limits before and after, gauges, pairs")
T = TypeVar("T", Decimal, str, Coating)


class CoatingLimitsQuery(Schema):
    """What to look up."""

    designation = designation("M10-6g")
    coating = text("A coating that a standard designates: tZn, Fe/Zn8/An/T0, A3L or flZn-480h.", "Fe/Zn8")
    length = text("Nominal length in mm; it chooses the length group.", "60")
    property_class = text("Property class, for loads and hydrogen embrittlement.", "8.8")


class CoatingLimits(CoatingMeaning, Answer, kw_only=True):
    """What a coating means for the thread of a designation."""

    designation: Annotated[str, described("Canonical.", "M10-6g")]
    member: Annotated[str, described("external or internal", "external")]
    tolerance_class: str


@blueprint.route("/coating-limits")
@look_up
@query(blueprint, CoatingLimitsQuery)
@answers(blueprint, CoatingLimits)
def get_coating_limits(arguments: dict[str, Any]) -> Response:
    """Return what a coating means for a thread, as M10-6g, or for a product, as ISO 4014 - M10x60 - 8.8 - tZn."""
    named = parse_coating(arguments["coating"]) if "coating" in arguments else None
    length = length_of(arguments.get("length"))
    property_class = arguments.get("property_class")
    if names_thread(arguments["designation"]):
        canonical, size, tolerance = _of_thread(arguments["designation"])
    else:
        product = parse_product(arguments["designation"])
        canonical, size, tolerance = _of_product(product)
        length = _agreed("length", product.length, length)
        property_class = _agreed("property_class", product.property_class, property_class)
        named = _agreed("coating", product.coating, named)
    found = coating_limits(size, tolerance, named, length, property_class)
    names = {"designation": canonical, "member": tolerance.member, "tolerance_class": tolerance.designation}
    return sent(shown(CoatingLimits, found, **coating_meaning(found, **names)))


def _of_thread(written: str) -> tuple[str, ThreadSize, ThreadClass]:
    thread = parse_thread(written)
    if len(thread.classes) != 1:
        raise class_missing(thread)
    return thread.canonical, thread.size, thread.classes[0]


def _of_product(product: ProductDesignation) -> tuple[str, ThreadSize, ThreadClass]:
    part = dimensions(product.product, product.size, product.length, product.property_class)
    named = product.tolerance_class or part.thread_tolerance_class
    if named is None:
        raise NotCovered(f"{product.canonical} has no thread that a coating could close", member="designation")
    return product.canonical, product.size, find_class(named, product.size)


def _agreed(member: str, of_product: T | None, given: T | None) -> T | None:
    """Return what the designation or the query says; both may say the same.

    Raises:
        Contradiction: they say different things.
    """
    if of_product is not None and given is not None and of_product != given:
        raise Contradiction(
            f"{member} {_written(given)} contradicts the designation, which says {_written(of_product)}",
            member=member,
        )
    return given if of_product is None else of_product


def _written(value: Decimal | str | Coating) -> str:
    return value.designation if isinstance(value, Coating) else str(value)
