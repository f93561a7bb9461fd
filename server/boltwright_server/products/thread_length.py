"""Thread length b, grip length lg and shank length ls of bolts and screws.

ISO 888:2012 and the product standards: lg max = l - b; ls min = lg max - 5 P (memory).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, Bounds
from ..standards import Row
from ..threads import MetricSize
from .product import Product

_SHORT_THREAD, _LONG_THREAD = Decimal(125), Decimal(200)
#: A plain shank shorter than this many diameters counts as none in screws that are then threaded to the head.
_LEAST_SHANK_IN_D = Decimal("0.5")


@dataclass(frozen=True, slots=True)
class ThreadLength:
    """`to_head`: no plain shank. `a` only where the shank is left out because the screw is short."""

    to_head: bool
    b: Bounds | None = None
    lg: Bounds | None = None
    ls: Bounds | None = None
    a: Bounds | None = None
    notices: tuple[str, ...] = ()


def thread_length(product: Product, row: Row, size: MetricSize, length: Decimal | None) -> ThreadLength:
    """Return the lengths of thread and shank in mm.

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
        notice = f"{row.table.cited}, gives no thread length b for {row.key[0]} at l = {length} mm"
        return ThreadLength(False, notices=(notice,))
    return _with_shank(product, row, size, length, column, b)


def _of_longer_screws(row: Row, length: Decimal) -> Bounds | None:
    """ISO 7380-1 gives b beside a: the thread length of screws that are not threaded to the head."""
    b = row.get("b") if "b" in row.cells else None
    if b is None or length <= b:
        return None
    return Bounds("b", None, None, "mm", row.basis("b", note="of screws that are not threaded to the head"), b)


def _column(row: Row, length: Decimal) -> str:
    if "b" in row.cells:
        return "b"
    if length <= _SHORT_THREAD:
        return "b_l_le_125"
    return "b_l_le_200" if length <= _LONG_THREAD else "b_l_gt_200"


def _with_shank(product: Product, row: Row, size: MetricSize, length: Decimal, column: str, b: Decimal) -> ThreadLength:
    grip = length - b
    shank = grip - 5 * size.pitch
    basis = row.basis(column).computed("lg max = l - b; ls min = lg max - 5 P", "memory")
    if product.options.short == "thread_to_head" and shank < _LEAST_SHANK_IN_D * size.d:
        return _to_head(row, size, length, basis)
    reference = row.basis(column, note="reference dimension: not judged; lg max and ls min are the limits")
    lg = Bounds("lg", None, grip, "mm", basis) if grip > 0 else None
    thread = Bounds("b", None, None, "mm", reference, b)
    if shank > 0:
        return ThreadLength(False, thread, lg, Bounds("ls", shank, None, "mm", basis))
    partner = product.options.short_partner or "a fully threaded screw"
    notice = f"l = {length} mm leaves no plain shank beside b = {b} mm: order {partner}"
    return ThreadLength(False, thread, lg, notices=(notice,))


def _to_head(row: Row, size: MetricSize, length: Decimal, basis: Basis) -> ThreadLength:
    """Threaded to within 3 P of the head: short socket screws."""
    cited = row.table.standard.cited
    a = Bounds("a", None, 3 * size.pitch, "mm", basis.computed("short screws: thread to within 3 P of the head"))
    notice = f"{cited}: threaded to the head at l = {length} mm (a shank below d/2 counts as none, memory)"
    return ThreadLength(True, a=a, notices=(notice,))
