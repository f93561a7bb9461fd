"""Coatings of part masters: embrittlement of hard fasteners, and coatings that the thread has no room for."""

from __future__ import annotations

from functools import lru_cache

from ..coating.embrittlement import needs_measures
from ..designations import ProductDesignation
from ..mechanical import mechanical_minimums
from ..products import Product
from ..quantities import Refusal
from ..threads import MetricSize
from .findings import Finding
from .reading import Reading

#: Coatings that are electroplated; acid cleaning comes before them.
_ELECTROPLATED = ("zinc plated",)


def check_cautions(part: ProductDesignation, reading: Reading, said: list[Finding]) -> None:
    """Add the cautions that the coating of a part asks for."""
    if reading.coating in _ELECTROPLATED and part.property_class is not None:
        said.extend(_embrittlement(part.product, part.size, part.property_class))


@lru_cache(maxsize=8192)
def _embrittlement(product: Product, size: MetricSize, property_class: str) -> tuple[Finding, ...]:
    if product.family.hardness_only:
        return ()
    try:
        found = mechanical_minimums(
            size,
            product.strength_class(property_class),
            product.member,
            style=product.nut_style(property_class),
        )
    except Refusal:
        return ()
    hardness = found.properties.get("hardness_vickers")
    if hardness is None or hardness.max is None or not needs_measures(hardness.max):
        return ()
    detail = (
        f"class {property_class} may be as hard as {hardness.max} HV: electroplating needs the measures of ISO 4042 "
        "against hydrogen embrittlement"
    )
    return (Finding("hydrogen-embrittlement", "coating", "zinc plated", None, detail, hardness.basis),)
