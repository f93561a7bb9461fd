"""Questions about dimensions of hexagon products, tolerance classes and lengths."""

from __future__ import annotations

from decimal import Decimal

from boltwright_server.products import Product, ProductDimensions, dimensions, find_product, product_grade
from boltwright_server.products.product import size_of
from boltwright_server.products.table_row import DIMENSION_IDS
from boltwright_server.standards import standard

from ..check import Cells, Check
from ..comparison import Answer, exception_holds
from ..product_rules import bolt_rule, nut_rule

#: A nominal length in each column of b: up to and including 125 and 200 mm, and above.
_LENGTH_OF_B = {"b_l_le_125": Decimal(125), "b_l_le_200": Decimal(200), "b_l_gt_200": Decimal("200.5")}


def product_dimensions(row: Cells, check: Check) -> Answer:
    """A cell of a product table as the engine answers it, the rule behind it, and whether the table departs from it."""
    product = find_product(check.standard)
    symbol, _, side = row["symbol"].rpartition("_")
    if row["symbol"] in _LENGTH_OF_B:
        part = _part(product, row["thread"], _LENGTH_OF_B[row["symbol"]])
        printed = part.dimensions["thread_length"].nominal
    else:
        part = _part(product, row["thread"], _length_of_grade(product, row["thread"], row["grade"]))
        if part.product_grade not in row["grade"]:
            return dict.fromkeys(check.expected, f"grade {part.product_grade}")
        printed = getattr(part.dimensions[DIMENSION_IDS[symbol]], side)
    rule = nut_rule if product.member == "internal" else bolt_rule
    expected = rule(product, part, row["symbol"])
    return {"printed": printed, "rule": expected, "exception": exception_holds(row, printed == expected)}


def _part(product: Product, thread: str, length: Decimal | None) -> ProductDimensions:
    return dimensions(product, size_of(thread), length)


def _length_of_grade(product: Product, thread: str, grade: str) -> Decimal | None:
    """The greatest length of grade A (l <= 10 d, l <= 150), the next above it for grade B; above M24 all are B."""
    if not product.has_length:
        return None
    d = size_of(thread).d
    longest_of_a = min(10 * d, Decimal(150))
    return longest_of_a if grade.startswith("A") or d > 24 else longest_of_a + Decimal("0.5")


def limit_deviations(row: Cells, check: Check) -> Answer:
    """Deviations of an ISO 286 class at a nominal size."""
    lower, upper, _ = product_grade.limits_of_class(row["class"], Decimal(row["size"]))
    return {"lower": lower, "upper": upper}


def tolerance_class_limits(row: Cells, check: Check) -> Answer:
    """A limit of a product table from the nominal size and the class that the product grade gives the feature."""
    product = find_product(row["product"])
    cells = product.row(size_of(row["thread"])).cells
    feature, _, side = row["symbol"].rpartition("_")
    nominal = cells.get(f"{feature}_nom") or cells[f"{feature}_max"]
    assert isinstance(nominal, Decimal)
    chosen_by = size_of(row["thread"]).d if feature in ("ds", "m") else nominal
    tolerance, _ = product_grade.tolerance_class(feature, row["grade"], chosen_by)
    low, high, _ = product_grade.limits_of_class(tolerance, nominal)
    return {"printed": nominal + (low if side == "min" else high)}


def length_limits(row: Cells, check: Check) -> Answer:
    """Limits of a nominal length in a product grade."""
    found = product_grade.length_bounds(Decimal(row["l"]), row["grade"])
    return {"min": found.min, "max": found.max}


def nominal_lengths(row: Cells, check: Check) -> Answer:
    """Whether a length is one of ISO 888."""
    found = standard(check.folder).table("table_1").find(Decimal(row["l"]))
    return {"series": "not listed" if found is None else found.word("series")}


QUESTIONS = {
    "product_dimensions": product_dimensions,
    "limit_deviations": limit_deviations,
    "tolerance_class_limits": tolerance_class_limits,
    "length_limits": length_limits,
    "nominal_lengths": nominal_lengths,
}
