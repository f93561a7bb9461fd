"""GET /v1/products: step by step to a valid designation, as JSON for a configurator or as a page with forms."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from itertools import groupby
from typing import Annotated, Any
from urllib.parse import urlencode

from flask import Response, render_template
from marshmallow import Schema
from msgspec import Struct

from ...designations import named_class, parse_coating, parse_length, parse_size, refuse_former, size_in
from ...products import Product, find_product, products
from ...quantities import Contradiction, asked_as
from ...specification import specification_of
from ...specification.configuration import Configuration
from ...threads import ThreadSize
from ..http.answers import Answer, answers, described, sent, shown
from ..http.api import blueprint as new_blueprint
from ..http.caching import HTML, look_up, preferred
from ..http.queries import query, text

blueprint = new_blueprint("products", "Products, their sizes, lengths, classes and coatings")
#: The steps in their order; a coating is the last and may be left out.
STEPS = ("standard", "size", "length", "property_class", "coating")
#: Says in the last step that the product stays plain.
PLAIN = "none"
_LABELS = {
    "standard": "Product",
    "size": "Size",
    "length": "Length",
    "property_class": "Class or grade",
    "coating": "Coating",
}
_UNITS = {"in": "in, as 2, 3/4 or 1-1/2", "mm": "mm"}
_PATH = "/v1/products"


class ProductsQuery(Schema):
    """What has been chosen so far."""

    standard = text("A product.", "ISO 4014")
    size = text("One of its sizes.", "M10")
    length = text("One of its lengths.", "60")
    property_class = text("One of its classes.", "8.8")
    coating = text("One of its coatings, or none.", "none")


class ListedProduct(Struct, kw_only=True):
    """A product of a standard."""

    product: Annotated[str, described("How a designation of it starts.", "ISO 4014")]
    standard: str
    edition: str
    title: str
    item: Annotated[str, described("What it is.", "bolt or screw")]
    thread: Annotated[str | None, described("external, internal, or null where it has none")]
    unit: str
    has_length: bool


class ChoiceAnswer(Struct):
    """One value of the next parameter."""

    value: str
    note: str | None


class ChoicesAnswer(Struct):
    """What the next parameter may be."""

    values: list[ChoiceAnswer]
    left_out: Annotated[list[ChoiceAnswer], described("Listed, but not possible here; `note` says why.")]
    free: Annotated[bool, described("The standard's list is not held: any value may be named.")]


class Products(Answer, kw_only=True):
    """How far the designation has come, and what comes next."""

    standard: str | None
    size: str | None
    unit: Annotated[str | None, described("Of the length.")]
    length: Decimal | None
    property_class: str | None
    coating: str | None
    next: Annotated[str | None, described(f"The parameter to name next: {', '.join(STEPS)}; null at the end.")]
    choices: Annotated[ChoicesAnswer, described("Its values.")]
    products: Annotated[list[ListedProduct], described("While no standard is named.")]
    designation: Annotated[str | None, described("As far as it has come, canonical.")]
    complete: Annotated[bool, described("It can be specified; a coating may still follow.")]


@blueprint.route("/products")
@look_up
@query(blueprint, ProductsQuery)
@answers(blueprint, Products)
@blueprint.alt_response(
    200, schema={"type": "string"}, content_type=HTML, description="A page with forms", success=True
)
def get_products(arguments: dict[str, Any]) -> Response:
    """List products; with what has been chosen, the values of the next step, until the designation is complete."""
    found = configuration_shown(_chosen(arguments))
    return _page(found) if preferred() == HTML else sent(found)


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


def configuration_shown(found: Configuration) -> Products:
    """Return a configuration as its answer shows it."""
    step, choices = found.next_step()
    product, wanted = found.product, found.wanted
    return Products(
        standard=None if product is None else product.id,
        size=None if product is None or found.size is None else product.size_name(found.size),
        unit=None if product is None else product.table.unit,
        length=found.length,
        property_class=found.property_class,
        coating=PLAIN if found.plain else None if found.coating is None else found.coating.designation,
        next=step,
        choices=shown(ChoicesAnswer, choices),
        products=[_product(one) for one in products()] if product is None else [],
        designation=wanted.canonical if wanted is not None else None if product is None else product.id,
        complete=found.complete,
    )


def _product(product: Product) -> ListedProduct:
    return ListedProduct(
        product=product.id,
        standard=product.standard.id,
        edition=product.standard.edition,
        title=product.title,
        item=product.family.item,
        thread=product.member,
        unit=product.table.unit,
        has_length=product.has_length,
    )


def _page(shown: Products) -> Response:
    """One plain form a step, no scripts; what is chosen stands above it."""
    chosen = [(step, str(getattr(shown, step))) for step in _LABELS if getattr(shown, step) is not None]
    page = render_template(
        "configuration.html",
        shown=shown,
        steps=[(_LABELS[step], value, _address(chosen[:number])) for number, (step, value) in enumerate(chosen)],
        chosen=chosen,
        label=_label(shown),
        groups=_by_item(shown.products),
        start=_PATH,
    )
    return Response(page, mimetype=HTML)


def _address(chosen: list[tuple[str, str]]) -> str:
    """Where a choice is made again: all that comes after it is dropped."""
    return f"{_PATH}?{urlencode(chosen)}" if chosen else _PATH


def _label(shown: Products) -> str:
    step = shown.next
    if step == "length":
        return f"{_LABELS[step]} in {_UNITS[str(shown.unit)]}"
    return _LABELS.get(str(step), "")


def _by_item(products: list[ListedProduct]) -> list[tuple[str, list[ListedProduct]]]:
    """Return the products by what they are, in the order of the registry within."""
    ordered = sorted(products, key=lambda one: one.item)
    return [(item, list(group)) for item, group in groupby(ordered, key=lambda one: one.item)]
