"""Questions about dimensions of products, tolerance classes and lengths."""

from __future__ import annotations

from decimal import Decimal

from boltwright_server.products import Product, ProductDimensions, dimensions, find_product, product_grade
from boltwright_server.products.family import VARIANT_IDS
from boltwright_server.products.product import size_of
from boltwright_server.quantities import Refusal
from boltwright_server.standards import standard
from boltwright_server.threads import UNIFIED_INCH, MetricSize, UnifiedSize

from ..check import Cells, Check
from ..comparison import Answer, exception_holds
from ..product_rules import inch_rule, product_rule

#: A nominal length in each column of b: up to and including 125 and 200 mm, and above.
_LENGTH_OF_B = {"b_l_le_125": Decimal(125), "b_l_le_200": Decimal(200), "b_l_gt_200": Decimal("200.5")}
#: Columns that are the nominal value of a dimension with limits of its own.
_NOMINAL = {"b": "thread_length", "k_nom": "head_height", "s_nom": "socket_width_across_flats"}


def product_dimensions(row: Cells, check: Check) -> Answer:
    """A cell of a product table as the engine answers it, the rule behind it, and whether the table departs from it."""
    product = find_product(check.standard)
    part = dimensions(product, size_of(row["thread"]), _length(product, row))
    if part.product_grade not in row["grade"]:
        return dict.fromkeys(check.expected, f"grade {part.product_grade}")
    printed = _cell(product, part, row["symbol"])
    expected = product_rule(product, row["thread"], row["grade"], row["symbol"])
    follows = expected is None or printed == expected
    return {"printed": printed, "rule": expected, "exception": exception_holds(row, follows)}


def _cell(product: Product, part: ProductDimensions, column: str) -> Decimal | None:
    if column in _LENGTH_OF_B:
        return part.dimensions["thread_length"].nominal
    if column in _NOMINAL:
        return part.dimensions[_NOMINAL[column]].nominal
    symbol, end, suffix = (*column.split("_"), "")[:3]
    id = VARIANT_IDS.get((symbol, suffix)) or product.family.dimension_ids()[symbol]
    bounds = part.dimensions[id]
    return {"min": bounds.min, "max": bounds.max, "nom": bounds.nominal}[end]


def _length(product: Product, row: Cells) -> Decimal | None:
    """A length that has the grade and shows the column; grade A ends at 10 d and 150, above M24 all are B."""
    if not product.has_length:
        return None
    if row["symbol"] in _LENGTH_OF_B:
        return _LENGTH_OF_B[row["symbol"]]
    d = size_of(row["thread"]).d
    if product.standard.family == "set_screw":
        return d if row["symbol"].endswith("_short") else 2 * d
    if product.options.grade:
        return min(20 * d + 40, Decimal(500))  # long enough for a plain shank
    longest_of_a = min(10 * d, Decimal(150))
    return longest_of_a if row["grade"].startswith("A") or d > 24 else longest_of_a + Decimal("0.5")


def inch_product_dimensions(row: Cells, check: Check) -> Answer:
    """A cell of an inch product table as the engine answers it, and the rule behind it."""
    product = find_product(row["product"])
    size = next(one for one in UNIFIED_INCH.sizes() if isinstance(one, UnifiedSize) and one.name == row["thread"])
    if row["symbol"].startswith("LT"):
        length = Decimal(6) if row["symbol"] == "LT_le_6" else Decimal(20)
        printed = dimensions(product, size, length).dimensions["thread_length"].nominal
    else:
        printed = _cell(product, dimensions(product, size, Decimal(20) if product.has_length else None), row["symbol"])
    expected = inch_rule(product, size, row["symbol"])
    follows = expected is None or printed == expected
    return {"printed": printed, "rule": expected, "exception": exception_holds(row, follows)}


def inch_length_tolerances(row: Cells, check: Check) -> Answer:
    """What an inch length may have more and less than its nominal value."""
    product = find_product(row["product"])
    size = next(one for one in UNIFIED_INCH.sizes() if isinstance(one, UnifiedSize) and one.name == row["thread"])
    bounds = dimensions(product, size, Decimal(row["length"])).dimensions["length"]
    if bounds.min is None or bounds.max is None or bounds.nominal is None:
        return {"plus": None, "minus": None}
    return {"plus": bounds.max - bounds.nominal, "minus": bounds.nominal - bounds.min}


def limit_deviations(row: Cells, check: Check) -> Answer:
    """Deviations of an ISO 286 class at a nominal size."""
    lower, upper, _ = product_grade.limits_of_class(row["class"], Decimal(row["size"]))
    return {"lower": lower, "upper": upper}


def tolerance_class_refusal(row: Cells, check: Check) -> Answer:
    """Whether a class of ISO 286 is held at a size: the code of the refusal, or that it answers."""
    try:
        product_grade.limits_of_class(row["class"], Decimal(row["size"]))
    except Refusal as refused:
        return {"answer": refused.code}
    return {"answer": "given"}


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


def washer_limits(row: Cells, check: Check) -> Answer:
    """Limits of a washer's hole, outside or thickness from the nominal size and thickness."""
    found = product_grade.washer_bounds(row["feature"], row["grade"], Decimal(row["nominal"]), Decimal(row["h"]))
    return {"min": found.min, "max": found.max}


def clearance_holes(row: Cells, check: Check) -> Answer:
    """Diameter of a clearance hole."""
    found = standard(check.folder).table("table").find(row["thread"])
    return {"printed": None if found is None else found.get(row["series"])}


def length_limits(row: Cells, check: Check) -> Answer:
    """Limits of a nominal length in a product grade."""
    found = product_grade.length_bounds(Decimal(row["l"]), row["grade"])
    return {"min": found.min, "max": found.max}


def length_range(row: Cells, check: Check) -> Answer:
    """Shortest and longest length that a product standard lists for a thread, and up to where it is threaded whole."""
    product, size = find_product(check.standard), size_of(row["thread"])
    steps = {"l_min": -1, "l_max": 1}
    found = {end: _end_of_range(product, size, row[end], step) for end, step in steps.items() if end in row}
    if "l_full_thread_max" in row:
        whole = Decimal(row["l_full_thread_max"])
        to_head = [dimensions(product, size, length).fully_threaded for length in (whole, whole + 1)]
        found["l_full_thread_max"] = whole if to_head == [True, False] else None
    return found


def _end_of_range(product: Product, size: MetricSize, printed: str, step: int) -> Decimal | None:
    """The printed length, if it is listed and the next nominal length beyond it is not."""
    lengths = [Decimal(str(key)) for key in standard("iso_888_2012").table("table_1").column_values("l")]
    at = lengths.index(Decimal(printed))
    beyond = lengths[at + step] if 0 <= at + step < len(lengths) else None
    listed = [length for length in (lengths[at], beyond) if length is not None and _is_listed(product, size, length)]
    return lengths[at] if listed == [lengths[at]] else None


def _is_listed(product: Product, size: MetricSize, length: Decimal) -> bool:
    return not any("lies outside" in notice for notice in dimensions(product, size, length).notices)


def thread_class_of_product(row: Cells, check: Check) -> Answer:
    """The tolerance class of the thread before coating, by product grade and property class."""
    product = find_product(row["product"])
    length = None if row["length"] == "-" else Decimal(row["length"])
    named = None if row["property_class"] == "-" else row["property_class"]
    found = dimensions(product, size_of(row["thread"]), length, named)
    return {"thread_class": found.thread_tolerance_class}


def shank_lengths(row: Cells, check: Check) -> Answer:
    """Grip and body length of a bolt, or how near to the head it is threaded."""
    product = find_product(row["product"])
    names = {one.name: one for one in UNIFIED_INCH.sizes() if isinstance(one, UnifiedSize) and one.series == "UNC"}
    size = names[row["thread"]] if product.family.inch else size_of(row["thread"])
    found = dimensions(product, size, Decimal(row["length"]))
    grip, body, a = (found.dimensions.get(f"{name}_length") for name in ("grip", "body", "unthreaded"))
    return {
        "grip_max": grip and grip.max,
        "body_min": body and body.min,
        "a_max": a and a.max,
        "to_head": "yes" if found.fully_threaded else "no",
    }


def nominal_lengths(row: Cells, check: Check) -> Answer:
    """Whether a length is one of ISO 888."""
    found = standard(check.folder).table("table_1").find(Decimal(row["l"]))
    return {"series": "not listed" if found is None else found.word("series")}


QUESTIONS = {
    "product_dimensions": product_dimensions,
    "inch_product_dimensions": inch_product_dimensions,
    "inch_length_tolerances": inch_length_tolerances,
    "limit_deviations": limit_deviations,
    "tolerance_class_limits": tolerance_class_limits,
    "washer_limits": washer_limits,
    "clearance_holes": clearance_holes,
    "length_limits": length_limits,
    "length_range": length_range,
    "tolerance_class_refusal": tolerance_class_refusal,
    "shank_lengths": shank_lengths,
    "thread_class_of_product": thread_class_of_product,
    "nominal_lengths": nominal_lengths,
}
