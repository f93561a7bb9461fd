"""What a drawing needs beside the part: form of the thread end, clearance holes."""

from __future__ import annotations

from dataclasses import dataclass

from ..quantities import Basis, Bounds
from ..standards import rules
from ..threads import MetricSize, ThreadSize
from .product import Product

_SERIES = ("fine", "medium", "coarse")


@dataclass(frozen=True, slots=True)
class ThreadEnd:
    """The end of an external thread: CH chamfered, FL flat point, CP cup point ..."""

    symbol: str
    name: str
    form: str
    basis: Basis


def thread_end(product: Product) -> ThreadEnd | None:
    """Return the usual thread end of a product, None for a nut, a washer or an inch product.

    ISO 4753:2011, mostly memory.
    """
    if product.member != "external" or product.family.inch:
        return None
    row = rules("ISO 4753").table("ends").find(product.options.end)
    if row is None:
        return None
    return ThreadEnd(product.options.end, row.word("name"), row.word("form"), row.basis("form"))


def clearance_holes(product: Product, size: ThreadSize) -> dict[str, Bounds]:
    """Return the nominal diameters in mm of fine, medium and coarse clearance holes of a bolt.

    ISO 273:1979. The tolerance fields H12, H13 and H14 are for information there.
    """
    row = None
    if product.member == "external" and isinstance(size, MetricSize):
        row = rules("ISO 273").table("table").find(f"M{size.d}")
    if row is None:
        return {}
    return {
        series: Bounds("dh", None, None, "mm", row.basis(series), diameter)
        for series in _SERIES
        if (diameter := row.get(series)) is not None
    }
