"""A size as it was read, found in the table of a product, or what is wrong with it."""

from __future__ import annotations

from decimal import Decimal

from ...designations import accepted, parse_thread
from ...products import Product
from ...quantities import Basis, Refusal
from ...quantities.keeper import remembered
from ...threads import MetricSize, ThreadSize, UnifiedSize, find_size
from .findings import Finding

#: ASME B18.2.1, B18.2.2 and B18.3, from memory.
_INCH_SERIES = ("UNC", "UNF", "8-UN")


@remembered(4096)
def metric_size(diameter: str, pitch: str | None) -> MetricSize | Refusal:
    """Return a size of ISO 261, or why there is none."""
    try:
        return find_size(Decimal(diameter), None if pitch is None else Decimal(pitch))
    except (Refusal, ArithmeticError) as error:
        return error if isinstance(error, Refusal) else Refusal(str(error))


def bare_size(system: str | None, diameter: str, pitch: str | None) -> ThreadSize | Finding:
    """Return a thread by itself, or what is wrong with it, where no product standard is held."""
    if system == "inch":
        if pitch is None:
            return _no_pitch(diameter)
        text = f"{diameter}-{pitch}"
        try:
            return parse_thread(text).size
        except Refusal as refusal:
            return Finding("size-not-in-standard", "thread", text, ", ".join(refusal.nearest) or None, refusal.detail)
    size = metric_size(diameter, pitch)
    if isinstance(size, MetricSize):
        return size
    given = f"M{diameter}" + (f"x{pitch}" if pitch else "")
    return Finding("size-not-in-standard", "thread", given, ", ".join(size.nearest) or None, size.detail)


def _no_pitch(diameter: str) -> Finding:
    detail = f"{diameter} in: the threads per inch are missing"
    return Finding("requirement-missing", "thread", diameter, None, detail)


def size_in(product: Product, diameter: str, pitch: str | None, *, by_hole: bool) -> ThreadSize | Finding:
    """Return the size in the table of the product; a fine thread that is the only one there needs no pitch.

    `by_hole`: the standard names a washer by its hole, 10.5 for M10.
    """
    if product.family.inch:
        return _inch_size_in(product, diameter, pitch)
    size = metric_size(diameter, pitch)
    if isinstance(size, MetricSize) and product.table.find(_row_key(product, size)) is not None:
        return size
    of_hole = _size_of_hole(product, diameter) if by_hole and "/" not in diameter and "#" not in diameter else None
    if of_hole is not None:
        return of_hole
    same = [name for name in product.size_keys() if name.split("x")[0] == f"M{diameter}"]
    if pitch is None and len(same) == 1:
        return _size_of(same[0])
    return _not_listed(product, f"M{diameter}" + (f"x{pitch}" if pitch else ""), size, same)


@remembered(4096)
def written_size(product: Product, diameter: str, pitch: str | None) -> ThreadSize | None:
    """Return a pitch that the product does not list, where its designation can still be written; else None.

    A diameter that it does not list names no product of the standard.
    """
    listed = {name.partition("x")[0] for name in product.size_keys()}
    if not product.family.inch and f"M{diameter}" not in listed:
        return None
    size = f"{diameter}-{pitch}" if product.family.inch else f"M{diameter}" + (f"x{pitch}" if pitch else "")
    if product.member is None:
        size = size.removeprefix("M")
    length = ("x2" if product.family.inch else "x60") if product.has_length else ""
    found = accepted(f"{product.cited} - {size}{length}")
    return None if found is None else found.size


def _not_listed(product: Product, given: str, size: MetricSize | Refusal, same: list[str]) -> Finding:
    if isinstance(size, Refusal):
        near, detail = ", ".join(size.nearest if same else _nearest(product, given)), size.detail
    else:
        near = ", ".join(same or _nearest(product, given))
        detail = product.lists_no(_row_key(product, size))
    code = "pitch-not-in-standard" if same else "size-not-in-standard"
    return Finding(code, "thread", given, near or None, detail, _basis(product))


def _nearest(product: Product, given: str) -> list[str]:
    """Return the sizes of the product next below and next above a diameter that it does not list."""
    try:
        wanted = Decimal(given.removeprefix("M").partition("x")[0])
    except ArithmeticError:
        # An inch size was asked of a metric product.
        return []
    listed = [(Decimal(name.removeprefix("M").partition("x")[0]), name) for name in product.size_keys()]
    below = [one for one in listed if one[0] < wanted][-1:]
    above = [one for one in listed if one[0] > wanted][:1]
    return [name for _, name in below + above]


def _basis(product: Product) -> Basis:
    table = product.table
    return table.standard.basis(table.printed_as, table.checked, "tabulated")


def _size_of_hole(product: Product, hole: str) -> MetricSize | None:
    for row in product.table.rows.values():
        if "d1_min" in row.cells and row.get("d1_min") == Decimal(hole):
            return _size_of(str(row.key[0]))
    return None


def _row_key(product: Product, size: MetricSize) -> str:
    return size.designation if product.names_thread else f"M{size.d}"


def _inch_size_in(product: Product, diameter: str, threads_per_inch: str | None) -> ThreadSize | Finding:
    if threads_per_inch is None:
        return _no_pitch(diameter)
    text = f"{diameter}-{threads_per_inch}"
    try:
        size = parse_thread(text).size
        product.row(size)
    except Refusal as refusal:
        near = ", ".join(refusal.nearest) or None
        return Finding("size-not-in-standard", "thread", text, near, refusal.detail, _basis(product))
    if isinstance(size, UnifiedSize) and size.series not in _INCH_SERIES:
        detail = f"{product.standard.cited} has threads UNC, UNF or 8-UN (from memory), not {size.designation}"
        return Finding("pitch-not-in-standard", "thread", text, "UNC, UNF or 8-UN", detail, _basis(product))
    return size


def _size_of(name: str) -> MetricSize:
    d, _, pitch = name.removeprefix("M").partition("x")
    return find_size(Decimal(d), Decimal(pitch) if pitch else None)
