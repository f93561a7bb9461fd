"""A product standard, one of its sizes, and the answer of every product family."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from difflib import get_close_matches

from ..quantities import Bounds, NotUnderstood, UnknownName
from ..standards import Row, Standard, Table
from ..threads import MetricSize, find_size


@dataclass(frozen=True, eq=False)
class Product:
    """A product standard in one edition."""

    standard: Standard
    member: str

    @property
    def table(self) -> Table:
        """The table of sizes: the first that the standard's folder names."""
        return next(iter(self.standard.tables.values()))

    @property
    def fully_threaded(self) -> bool:
        """A bolt with a plain shank has a shank diameter in its table, a screw threaded to the head has none."""
        return self.member == "external" and not any(name.startswith("ds_") for name in self.table.columns)

    @property
    def has_length(self) -> bool:
        """Nuts have no length."""
        return "l_min" in self.table.columns

    def row(self, size: MetricSize) -> Row:
        """Return the row of a thread.

        Raises:
            UnknownName: the standard does not list the thread; carries the nearest that it lists.
        """
        row = self.table.find(size.designation)
        if row is None:
            listed = [str(name) for name in self.table.column_values("thread")]
            raise UnknownName(
                f"{self.standard.cited} lists no {size.designation}",
                member="size",
                code="unknown_size",
                nearest=_nearest_sizes(size, listed),
            )
        return row


@dataclass(frozen=True, slots=True)
class ProductDimensions:
    """Dimensions of one product in mm."""

    standard: str
    edition: str
    size: str
    length: Decimal | None
    product_grade: str
    thread_tolerance_class: str
    dimensions: dict[str, Bounds]
    notices: tuple[str, ...]


def _nearest_sizes(size: MetricSize, listed: list[str]) -> list[str]:
    same_diameter = [name for name in listed if name.split("x")[0] == f"M{size.d}"]
    by_text = get_close_matches(size.designation, listed, n=3, cutoff=0.4)
    return (same_diameter + [name for name in by_text if name not in same_diameter])[:3]


def checked_length(length: Decimal | None, product: Product) -> Decimal:
    """Return a nominal length that can be one.

    Raises:
        NotUnderstood: no length, or one that is not above zero.
    """
    if length is None:
        raise NotUnderstood(
            f"{product.standard.id} needs a nominal length, as M10x60", member="length", code="length_missing"
        )
    if length <= 0:
        raise NotUnderstood(f"a length must be above 0 mm, not {length}", member="length", code="out_of_range")
    return length


def size_of(name: str) -> MetricSize:
    """Return the thread that a row of a product table names."""
    d, _, pitch = name.removeprefix("M").partition("x")
    return find_size(Decimal(d), Decimal(pitch) if pitch else None)
