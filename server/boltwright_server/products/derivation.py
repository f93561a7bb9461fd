"""The computed dimensions of a product step by step: length, grip length, shank length, unthreaded length.

ISO 4759-1:2000 (class of the length) on ISO 286-1:2010, Table 1; lg max = l - b and ls min = lg max - 5 P (memory). mm.
Every other dimension stands in the table of its product standard and has no steps.
"""

from __future__ import annotations

from ..quantities import Bounds, NotCovered
from ..quantities.derivation import Derivation, Step
from ..standards import rules
from ..threads import MetricSize
from ..threads.iso_metric import size_basis
from .product import Product, ProductDimensions
from .product_grade import grade_of_class, length_class

#: Letter of a tolerance class -> what its lower and upper limits are, with the nominal size l and the grade IT.
_LENGTH = {"js": ("l - IT/2", "l + IT/2"), "h": ("l - IT", "l"), "+-IT": ("l - IT", "l + IT"), "+IT": ("l", "l + IT")}


def dimensions_derivation(product: Product, size: object, found: ProductDimensions) -> tuple[Step, ...]:
    """Return the steps to every computed dimension of a product; empty where all are tabulated.

    ISO 4759-1:2000, ISO 286-1:2010, ISO 888:2012.

    Raises:
        NotCovered: an inch product.
    """
    if product.family.inch:
        raise NotCovered(f"the derivation of {product.id} is not held", member="explain")
    work = Derivation()
    if found.length is not None:
        designated = product.standard.basis("nominal length", "two reproductions", "tabulated")
        work.given("l", found.length, "mm", designated)
        _length(work, product, found)
    if isinstance(size, MetricSize):
        work.given("P", size.pitch, "mm", size_basis(size))
        _shank(work, found.dimensions, product.options.transition or 5)
    return tuple(work.steps)


def _length(work: Derivation, product: Product, found: ProductDimensions) -> None:
    length = found.length
    bounds = found.dimensions.get("length")
    if length is None or bounds is None or found.product_grade is None:
        return
    tolerance = length_class(length, found.product_grade, product.options.length_class)
    letter, column = grade_of_class(tolerance)
    row = rules("ISO 286-1").table("table_1").find_in_band(length)
    if row is None or letter not in _LENGTH:
        return
    work.given("IT", row.number(column), "mm", row.basis(column, note=f"{column} of class {tolerance}"))
    for end, expression in zip(("min", "max"), _LENGTH[letter], strict=True):
        work.step(f"l_{end}", expression, "mm", bounds.basis, answers=f"dimensions.length.{end}")


def _shank(work: Derivation, dimensions: dict[str, Bounds], pitches: int) -> None:
    b, lg, ls, a = (dimensions.get(id) for id in ("thread_length", "grip_length", "body_length", "unthreaded_length"))
    if b is not None and b.nominal is not None and lg is not None:
        work.given("b", b.nominal, "mm", b.basis)
        work.step("lg_max", "l - b", "mm", lg.basis, answers="dimensions.grip_length.max")
        if ls is not None:
            work.step("ls_min", f"lg_max - {pitches}*P", "mm", ls.basis, answers="dimensions.body_length.min")
    if a is not None and a.basis.method == "computed":
        work.step("a_max", "3*P", "mm", a.basis, answers="dimensions.unthreaded_length.max")
