"""The configuration of a product as a page: one plain form a step, no scripts, what is chosen stands above it."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby
from typing import Any
from urllib.parse import urlencode

from flask import Response, render_template

from ..http.caching import HTML

_LABELS = {
    "standard": "Product",
    "size": "Size",
    "length": "Length",
    "property_class": "Class or grade",
    "coating": "Coating",
}
_UNITS = {"in": "in, as 2, 3/4 or 1-1/2", "mm": "mm"}
_PATH = "/v1/products"


def configuration_page(shown: Mapping[str, Any]) -> Response:
    """Return the page of a configuration as `/v1/products` shows it."""
    chosen = [(step, str(shown[step])) for step in _LABELS if shown[step] is not None]
    page = render_template(
        "configuration.html",
        shown=shown,
        steps=[(_LABELS[step], value, _address(chosen[:number])) for number, (step, value) in enumerate(chosen)],
        chosen=chosen,
        label=_label(shown),
        groups=_by_item(shown["products"]),
        start=_PATH,
    )
    return Response(page, mimetype=HTML)


def _address(chosen: list[tuple[str, str]]) -> str:
    """Where a choice is made again: all that comes after it is dropped."""
    return f"{_PATH}?{urlencode(chosen)}" if chosen else _PATH


def _label(shown: Mapping[str, Any]) -> str:
    step = shown["next"]
    if step == "length":
        return f"{_LABELS[step]} in {_UNITS[shown['unit']]}"
    return _LABELS.get(step, "")


def _by_item(products: list[Mapping[str, Any]]) -> list[tuple[str, list[Mapping[str, Any]]]]:
    """Return the products by what they are, in the order of the registry within."""
    ordered = sorted(products, key=lambda one: str(one["item"]))
    return [(item, list(group)) for item, group in groupby(ordered, key=lambda one: str(one["item"]))]
