"""Thread length b, grip length lg and shank length ls of bolts and screws.

ISO 888:2012 and the product standards: lg max = l - b; ls min = lg max - 5 P (memory). ASME B18.2.1: LG = L - LT;
LB = LG - Y (memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, Bounds
from ..quantities.rounding import half_even
from ..standards import Row
from ..threads import MetricSize, ThreadSize
from .product import Product

#: Greatest nominal length for each column of the thread length; the last column holds above.
_SHORT_THREAD, _LONG_THREAD = Decimal(125), Decimal(200)
_INCH_SHORT_THREAD = Decimal(6)
#: A plain shank shorter than this many diameters counts as none in screws that are then threaded to the head.
_LEAST_SHANK_IN_D = Decimal("0.5")
#: Decimals to which the tables print the incomplete thread Y, ties to even: 0.3125 is 0.312.
_Y_STEP = "0.001"
_RULE = "lg max = l - b; ls min = lg max - 5 P"
_INCH_RULE = "LG max = L - LT; LB min = LG max - Y"


@dataclass(frozen=True, slots=True)
class ThreadLength:
    """`to_head`: no plain shank. `a` only where the shank is left out because the screw is short."""

    to_head: bool
    b: Bounds | None = None
    lg: Bounds | None = None
    ls: Bounds | None = None
    a: Bounds | None = None
    notices: tuple[str, ...] = ()

    def dimensions(self) -> dict[str, Bounds]:
        """Return the lengths that are given, by id."""
        lengths = {"thread_length": self.b, "grip_length": self.lg, "body_length": self.ls, "unthreaded_length": self.a}
        return {id: bounds for id, bounds in lengths.items() if bounds is not None}


def thread_length(product: Product, row: Row, size: ThreadSize, length: Decimal | None) -> ThreadLength:
    """Return the lengths of thread and shank, in the unit of the table.

    ISO 888:2012; the tables of the product standards.
    """
    if length is None:
        return ThreadLength(product.fully_threaded)
    if product.fully_threaded:
        return ThreadLength(True, _of_longer_screws(row, length))
    whole = row.get("l_full_thread_max") if "l_full_thread_max" in row.cells else None
    if whole is not None and length <= whole:
        return ThreadLength(True, notices=(f"{row.table.cited}: threaded to the head up to l = {whole} mm",))
    column = _column(row, length)
    b = row.get(column) if column in row.cells else None
    if b is None:
        notice = f"{row.table.cited}, gives no thread length b for {row.key[0]} at l = {length} {row.table.unit}"
        return ThreadLength(False, notices=(notice,))
    return _with_shank(product, row, size, length, column, b)


def _of_longer_screws(row: Row, length: Decimal) -> Bounds | None:
    """ISO 7380-1 gives b beside a: the thread length of screws that are not threaded to the head."""
    b = row.get("b") if "b" in row.cells else None
    if b is None or length <= b:
        return None
    return Bounds("b", None, None, "mm", row.basis("b", note="of screws that are not threaded to the head"), b)


def _column(row: Row, length: Decimal) -> str:
    if "LT_le_6" in row.cells:
        return "LT_le_6" if length <= _INCH_SHORT_THREAD else "LT_gt_6"
    if "b" in row.cells or "LT_min" in row.cells:
        return "b" if "b" in row.cells else "LT_min"
    if length <= _SHORT_THREAD:
        return "b_l_le_125"
    return "b_l_le_200" if length <= _LONG_THREAD else "b_l_gt_200"


def _with_shank(product: Product, row: Row, size: ThreadSize, length: Decimal, column: str, b: Decimal) -> ThreadLength:
    inch, unit = product.family.inch, row.table.unit
    grip = length - b
    shank = grip - _incomplete(row, size)
    basis = row.basis(column).computed(_INCH_RULE if inch else _RULE, "memory")
    if _counts_as_none(product, size, grip, shank):
        return _to_head(product, size, length, basis)
    partner = product.options.short_partner or "a fully threaded screw"
    notice = f"l = {length} {unit} leaves no plain shank beside b = {b} {unit}: order {partner}"
    if grip <= 0:
        return ThreadLength(True, notices=(notice,))
    note = "reference dimension: not judged; grip and body length are the limits"
    thread = Bounds("LT" if inch else "b", None, None, unit, row.basis(column, note=note), b)
    lg = Bounds("LG" if inch else "lg", None, grip, unit, basis)
    if shank <= 0:
        return ThreadLength(False, thread, lg, notices=(notice,))
    return ThreadLength(False, thread, lg, Bounds("LB" if inch else "ls", shank, None, unit, basis))


def _counts_as_none(product: Product, size: ThreadSize, grip: Decimal, shank: Decimal) -> bool:
    if product.family.inch:
        return grip <= 0
    return product.options.short == "thread_to_head" and shank < _LEAST_SHANK_IN_D * size.d


def _incomplete(row: Row, size: ThreadSize) -> Decimal:
    """The transition between thread and shank: 5 P, in inch the tabulated Y or 5 P rounded as the table rounds it."""
    if "Y_nom" in row.cells:
        return row.number("Y_nom")
    return 5 * size.pitch if isinstance(size, MetricSize) else half_even(5 * size.pitch, _Y_STEP)


def _to_head(product: Product, size: ThreadSize, length: Decimal, basis: Basis) -> ThreadLength:
    """Short screws are threaded to within 3 P of the head (ISO 4762), inch screws to within 2 1/2 pitches; memory."""
    unit = product.table.unit
    if product.family.inch:
        notice = f"{product.id}: threaded to the head at L = {length} {unit} (no grip is left beside LT, memory)"
        return ThreadLength(True, notices=(notice,))
    a = Bounds("a", None, 3 * size.pitch, unit, basis.computed("short screws: thread to within 3 P of the head"))
    why = "a shank below d/2 counts as none, memory"
    notice = f"{product.standard.cited}: threaded to the head at l = {length} {unit} ({why})"
    return ThreadLength(True, a=a, notices=(notice,))
