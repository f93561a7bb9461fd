"""Thread length b, grip length lg and shank length ls of bolts and screws.

ISO 888:2012 and the product standards: lg max = l - b; ls min = lg max - 5 P (memory), 3 P in HV bolts. ASME B18.2.1:
LG = L - LT; LB = LG - Y (memory).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, Bounds
from ..quantities.rounding import half_even
from ..standards import Row, rules
from ..threads import MetricSize, ThreadSize
from .product import Product

#: A column of the thread length says for which nominal lengths it is: `b_l_le_125`, `LT_le_6`, and `b_l_gt_200` above.
_UP_TO = re.compile(r"(?:b_l|LT)_le_([0-9.]+)")
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
    ends = {end: name for name in row.cells if (end := _end_of(name)) is not None}
    if not ends:
        return "LT_min" if "LT_min" in row.cells else "b"
    fitting = min((end for end in ends if length <= end), default=None)
    return ends[max(ends)].replace("_le_", "_gt_") if fitting is None else ends[fitting]


def _end_of(column: str) -> Decimal | None:
    """The greatest nominal length that a column of the thread length is for."""
    match = _UP_TO.fullmatch(column)
    return None if match is None else Decimal(match[1])


def _multiple(length: str) -> Decimal:
    """How many pitches or diameters a length of thread or shank is; ISO 888:2012, memory."""
    return rules("ISO 888").table("shank").rows[length,].number("multiple")


def _with_shank(product: Product, row: Row, size: ThreadSize, length: Decimal, column: str, b: Decimal) -> ThreadLength:
    inch, unit = product.family.inch, row.table.unit
    grip = length - b
    shank = grip - _incomplete(row, size, product.options.transition)
    basis = _basis(product, row, column)
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


def _basis(product: Product, row: Row, column: str) -> Basis:
    """ISO 888 and ASME B18.2.1 say where the shank ends, but for a standard with a transition of its own."""
    if product.options.transition:
        clause = f"lg max = l - b; ls min = lg max - {product.options.transition} P"
        return row.basis(column).computed(clause, "one reproduction")
    rule = rules("ASME B18.2.1").clause(_INCH_RULE) if product.family.inch else rules("ISO 888").clause(_RULE)
    return row.basis(column).computed(rule.clause, rule.checked)


def _counts_as_none(product: Product, size: ThreadSize, grip: Decimal, shank: Decimal) -> bool:
    if product.family.inch:
        return grip <= 0
    return product.options.short == "thread_to_head" and shank < _multiple("shank_min") * size.d


def _incomplete(row: Row, size: ThreadSize, pitches: int) -> Decimal:
    """The transition between thread and shank: 5 P, in inch the tabulated Y or 5 P rounded as the table rounds it."""
    if "Y_nom" in row.cells:
        return row.number("Y_nom")
    transition = (pitches or _multiple("transition")) * size.pitch
    return transition if isinstance(size, MetricSize) else half_even(transition, _Y_STEP)


def _to_head(product: Product, size: ThreadSize, length: Decimal, basis: Basis) -> ThreadLength:
    """Short screws are threaded to within 3 P of the head (ISO 4762), inch screws to within 2 1/2 pitches; memory."""
    unit = product.table.unit
    if product.family.inch:
        notice = f"{product.id}: threaded to the head at L = {length} {unit} (no grip is left beside LT, memory)"
        return ThreadLength(True, notices=(notice,))
    a = Bounds(
        "a",
        None,
        _multiple("unthreaded_max") * size.pitch,
        unit,
        basis.computed("short screws: thread to within 3 P of the head"),
    )
    why = "a shank below d/2 counts as none, memory"
    notice = f"{product.standard.cited}: threaded to the head at l = {length} {unit} ({why})"
    return ThreadLength(True, a=a, notices=(notice,))
