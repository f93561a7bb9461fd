"""A plant's own product standards: checked as a whole before any of them is served."""

from __future__ import annotations

import re
from pathlib import Path

from ..quantities import Refusal
from ..standards import BadFacts, Row, Standard, all_standards
from ..standards.own import read_own, serve_own
from ..threads import MetricSize
from ..threads.unified_diameters import diameters
from .catalogue import product_key, products_of
from .family import FAMILIES
from .product import Product, size_of
from .table_engine import table_dimensions

#: Columns of a table of sizes that are no limits of a dimension.
_OTHER_COLUMNS = frozenset(
    [
        "thread",
        "pitch",
        "preferred",
        "grade",
        "thread_class",
        "b",
        "b_l_le_125",
        "b_l_le_200",
        "b_l_gt_200",
        "l_min",
        "l_max",
        "l_full_thread_max",
        "LT_le_6",
        "LT_gt_6",
        "LT_min",
    ]
)
_CLASS_COLUMNS = ("d_min", "d_max")


def add_own_standards(directory: Path) -> tuple[Standard, ...]:
    """Serve the standards of a directory beside the built-in ones; call it before anything is looked up.

    Raises:
        BadFacts: as `checked`; then none of them is served.
    """
    found = checked(directory)
    serve_own(directory, found)
    return tuple(found.values())


def checked(directory: Path) -> dict[str, Standard]:
    """Return the standards of a directory by folder, each fit to be served. Nothing is served yet.

    Raises:
        BadFacts: a folder that may not be served; names file and row.
    """
    found = read_own(directory)
    taken = _names()
    for standard in found.values():
        check_product_standard(standard)
        for product in products_of(standard):
            other = taken.get(product_key(product.id))
            if other is not None and other.id != standard.id:
                named = other.cited
                raise BadFacts(f"{standard.folder}/standard.toml: {product.id!r} reads as {named}")
    return found


def _names() -> dict[str, Standard]:
    """How designations of the products held start, in every edition."""
    return {
        product_key(product.id): one
        for one in all_standards()
        if one.family in FAMILIES
        for product in products_of(one)
    }


def check_product_standard(standard: Standard) -> None:
    """Check what the loader cannot know: that every column, size and class of a product standard has a meaning.

    Raises:
        BadFacts: names file and row.
    """
    if standard.family not in FAMILIES:
        raise BadFacts(f"{standard.folder}/standard.toml: family {standard.family!r} is none of {', '.join(FAMILIES)}")
    for product in products_of(standard):
        _check_columns(product)
        for number, row in enumerate(product.table.rows.values(), start=2):
            _check_row(product, row, f"{product.table.where}, row {number}")
        _check_classes(product)


def _check_columns(product: Product) -> None:
    table, ids = product.table, product.family.dimension_ids()
    family, unit = product.standard.family, "in" if product.family.inch else "mm"
    if table.unit != unit:
        raise BadFacts(f"{table.where}: the unit of {family} is {unit}, not {table.unit}")
    for column in table.columns:
        symbol, _, end = column.partition("_")
        known = column in _OTHER_COLUMNS or (symbol in ids and re.fullmatch(r"(min|max|nom)(_[A-Za-z]+)?", end))
        if not known:
            raise BadFacts(
                f"{table.where}, row 1: column {column!r} has no meaning for {family}; a dimension is one of "
                f"{', '.join(ids)} with _min, _max or _nom; other columns are {', '.join(sorted(_OTHER_COLUMNS))}"
            )
    nut = product.member == "internal"
    named = product.options.form or product.own_strength
    if nut and product.options.style is None and not named and not _styles(product):
        raise BadFacts(f"{product.standard.folder}/standard.toml: a nut needs style (or form) under [[product]]")


def _styles(product: Product) -> bool:
    return product.classes is not None and "style" in product.classes.columns


def _check_row(product: Product, row: Row, where: str) -> None:
    name = str(row.key[0])
    try:
        if product.family.inch:
            diameters(name)
        else:
            _check_dimensions(product, size_of(name))
    except (Refusal, ArithmeticError) as refusal:
        told = refusal.detail if isinstance(refusal, Refusal) else "no thread such as M10 or M10x1.25"
        raise BadFacts(f"{where}: thread {name!r}: {told}") from refusal


def _check_dimensions(product: Product, size: MetricSize) -> None:
    """The engine answers for a length in the range, whatever it is."""
    row = product.row(size)
    least = row.get("l_min") if "l_min" in row.cells else None
    table_dimensions(product, size, (least or 10 * size.d) if product.has_length else None)


def _check_classes(product: Product) -> None:
    table = product.classes
    if table is None:
        return
    missing = [column for column in _CLASS_COLUMNS if column not in table.columns]
    if missing or table.key != ("property_class",):
        raise BadFacts(f"{table.where}, row 1: a table of classes has the key property_class and columns d_min, d_max")
    if product.family.hardness_only and product.member is None and "HV_min" not in table.columns:
        raise BadFacts(f"{table.where}, row 1: the classes of a washer need HV_min and HV_max")
