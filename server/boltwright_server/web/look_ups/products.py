"""GET /v1/products: step by step to a valid designation, as JSON for a configurator or as a page with forms."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from flask import Response
from marshmallow import Schema, fields

from ...designations import named_class, parse_coating, parse_length, parse_size, refuse_former, size_in
from ...products import Product, find_product, products
from ...quantities import Contradiction, asked_as
from ...specification import specification_of
from ...specification.configuration import Choices, Configuration
from ...threads import ThreadSize
from ..http.api import blueprint as new_blueprint
from ..http.caching import HTML, JSON, look_up, preferred
from ..http.presentation import encode
from ..http.queries import query, text
from ..http.schemas import AnswerSchema
from .configuration_page import configuration_page

blueprint = new_blueprint("products", "Products, their sizes, lengths, classes and coatings")
#: The steps in their order; a coating is the last and may be left out.
STEPS = ("standard", "size", "length", "property_class", "coating")
#: Says in the last step that the product stays plain.
PLAIN = "none"


class ProductsQuery(Schema):
    """What has been chosen so far."""

    standard = text("A product.", "ISO 4014")
    size = text("One of its sizes.", "M10")
    length = text("One of its lengths.", "60")
    property_class = text("One of its classes.", "8.8")
    coating = text("One of its coatings, or none.", "none")


class ProductSchema(Schema):
    """A product of a standard."""

    product = fields.String(metadata={"example": "ISO 4014"})
    standard = fields.String()
    edition = fields.String()
    title = fields.String()
    item = fields.String(metadata={"example": "bolt or screw"})
    thread = fields.String(allow_none=True, metadata={"enum": ["external", "internal", None]})
    unit = fields.String()
    has_length = fields.Boolean()


class ChoiceSchema(Schema):
    """One value of the next parameter."""

    value = fields.String()
    note = fields.String(allow_none=True)


class ChoicesSchema(Schema):
    """What the next parameter may be."""

    values = fields.List(fields.Nested(ChoiceSchema))
    left_out = fields.List(
        fields.Nested(ChoiceSchema), metadata={"description": "Listed, but not possible here; `note` says why."}
    )
    free = fields.Boolean(metadata={"description": "The standard's list is not held: any value may be named."})


class ProductsSchema(AnswerSchema):
    """How far the designation has come, and what comes next."""

    standard = fields.String(allow_none=True)
    size = fields.String(allow_none=True)
    unit = fields.String(allow_none=True, metadata={"description": "Of the length."})
    length = fields.Float(allow_none=True)
    property_class = fields.String(allow_none=True)
    coating = fields.String(allow_none=True)
    next = fields.String(
        allow_none=True, metadata={"enum": [*STEPS, None], "description": "The parameter to name next."}
    )
    choices = fields.Nested(ChoicesSchema, metadata={"description": "Its values."})
    products = fields.List(fields.Nested(ProductSchema), metadata={"description": "While no standard is named."})
    designation = fields.String(allow_none=True, metadata={"description": "As far as it has come, canonical."})
    complete = fields.Boolean(metadata={"description": "It can be specified; a coating may still follow."})


@blueprint.route("/products")
@look_up
@query(blueprint, ProductsQuery)
@blueprint.response(200, ProductsSchema)
@blueprint.alt_response(
    200, schema={"type": "string"}, content_type=HTML, description="A page with forms", success=True
)
def get_products(arguments: dict[str, Any]) -> Response:
    """List products; with what has been chosen, the values of the next step, until the designation is complete."""
    shown = configuration_shown(_chosen(arguments))
    return configuration_page(shown) if preferred() == HTML else Response(encode(shown), mimetype=JSON)


def _chosen(arguments: dict[str, Any]) -> Configuration:
    """Read the steps in their order.

    Raises:
        Contradiction: a step is named without the one before it.
        Others: as the step's own kind of name.
    """
    if "standard" not in arguments:
        return _without_standard(arguments)
    refuse_former(arguments["standard"], size_in(arguments.get("size", "")), "standard")
    product = find_product(arguments["standard"])
    read: dict[str, Callable[[str], Any]] = {
        "size": lambda text: _listed_size(product, text),
        "length": lambda text: product.checked_length(parse_length(product, text)),
        "property_class": lambda text: named_class(product, text),
        "coating": lambda text: None if text == PLAIN else parse_coating(text),
    }
    chosen = {}
    for step, reader in read.items():
        if step in arguments:
            _check_order(step, arguments, product)
            with asked_as(step):
                chosen[step] = reader(arguments[step])
    found = Configuration(product, **chosen, plain=arguments.get("coating") == PLAIN)
    if found.wanted is not None and found.complete:
        specification_of(found.wanted)
    return found


def _without_standard(arguments: dict[str, Any]) -> Configuration:
    if arguments:
        raise Contradiction(f"{next(iter(arguments))} needs a standard", member="standard", code="missing_member")
    return Configuration()


def _listed_size(product: Product, text: str) -> ThreadSize:
    size = parse_size(product, text)
    product.row(size)
    return size


def _check_order(step: str, arguments: dict[str, Any], product: Product) -> None:
    needed = [one for one in STEPS[1 : STEPS.index(step)] if one != "length" or product.has_length]
    missing = next((one for one in needed if one not in arguments), None)
    if missing is not None:
        raise Contradiction(f"{step} needs a {missing.replace('_', ' ')}", member=missing, code="missing_member")


def configuration_shown(found: Configuration) -> dict[str, Any]:
    """Return the members of a configuration."""
    step, choices = found.next_step()
    product, wanted = found.product, found.wanted
    return {
        "standard": None if product is None else product.id,
        "size": None if product is None or found.size is None else product.size_name(found.size),
        "unit": None if product is None else product.table.unit,
        "length": found.length,
        "property_class": found.property_class,
        "coating": PLAIN if found.plain else None if found.coating is None else found.coating.designation,
        "next": step,
        "choices": _choices(choices),
        "products": [_product(one) for one in products()] if product is None else [],
        "designation": product.id if product is not None and wanted is None else wanted and wanted.canonical,
        "complete": found.complete,
    }


def _choices(choices: Choices) -> dict[str, Any]:
    return {
        "values": [{"value": one.value, "note": one.note} for one in choices.values],
        "left_out": [{"value": one.value, "note": one.note} for one in choices.left_out],
        "free": choices.free,
    }


def _product(product: Product) -> dict[str, Any]:
    return {
        "product": product.id,
        "standard": product.standard.id,
        "edition": product.standard.edition,
        "title": product.title,
        "item": product.family.item,
        "thread": product.member,
        "unit": product.table.unit,
        "has_length": product.has_length,
    }
