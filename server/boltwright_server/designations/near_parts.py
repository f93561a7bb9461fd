"""Names near the part of a product designation at which reading stopped."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from ..mechanical import grades
from ..products import Product, find_product, products
from ..quantities import NotUnderstood, UnknownName, near_names
from .coating import EXAMPLES, SLIPS

_BETWEEN = re.compile(r"\s+-\s+")


def name_near_part(refusal: NotUnderstood, text: str) -> None:
    """Give a refusal the names that the refused part of `text` may mean; parts stand between ` - `."""
    if refusal.position is None or refusal.nearest:
        return
    cuts = [match.end() for match in _BETWEEN.finditer(text) if match.end() <= refusal.position]
    parts = _BETWEEN.split(text)
    known = _standards() if not cuts else _names_of(parts[0], len(cuts))
    part = parts[len(cuts)]
    refusal.nearest = near_names(part.partition("x")[0] if len(cuts) == 1 else part, known, 3, SLIPS)


def _standards() -> Iterator[str]:
    return (product.id for product in products())


def _names_of(standard: str, place: int) -> Iterable[str]:
    """Return the sizes of a product for the second part of its designation, classes and coatings for later ones."""
    try:
        product = find_product(standard)
    except UnknownName:
        return ()
    return product.size_keys() if place == 1 else (*_classes(product), *EXAMPLES)


def _classes(product: Product) -> Iterator[str]:
    if product.family.hardness_only and product.classes is not None:
        return (str(name) for name in product.classes.column_values("property_class"))
    return (grade.name for grade in grades() if grade.member == product.member)
