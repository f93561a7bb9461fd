"""The lines of a sheet: a name, a symbol, limits, and the basis that each figure leads to."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Protocol

from ..quantities import Basis
from .bases import Bases, Figure, Source
from .figures import unit_written
from .symbols import Symbol


class Limits(Protocol):
    """What bounds, settings of a test and dimensions of a gauge have in common."""

    @property
    def min(self) -> Decimal | None:
        """Least permissible value."""

    @property
    def max(self) -> Decimal | None:
        """Greatest permissible value."""

    @property
    def unit(self) -> str:
        """Unit code."""

    @property
    def basis(self) -> Basis:
        """Where both come from."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a table of limits. `words` stand in place of figures where nothing is measured."""

    place: str
    name: str
    symbol: Symbol | None
    least: Figure
    greatest: Figure
    unit: str
    source: Source
    words: str = ""
    #: Gauges only: the size at which a used one is worn out.
    worn: Figure | None = None
    instrument: str = ""
    destructive: bool = False
    #: Whether a verdict needs it: "yes", "one scale" of a hardness, or nothing.
    mandatory: str = ""
    #: Coated products: "before coating" or "as delivered".
    state: str = ""

    @property
    def has_figures(self) -> bool:
        """Whether there is a figure that leads to the basis; the number of the basis leads there otherwise."""
        return bool(self.words or self.least.text or self.greatest.text or (self.worn and self.worn.text))


@dataclass(frozen=True, slots=True)
class Block:
    """Lines under a heading of their own: a gauge, a test, a state of a coating.

    `applies` is None where the length of the product would be needed to say.
    """

    place: str
    name: str
    remarks: list[str]
    lines: list[Line] = field(default_factory=list)
    source: Source | None = None
    applies: bool | None = True


def line_of(bases: Bases, place: str, name: str, symbol: str | None, limits: Limits, used_as: str = "") -> Line:
    """Return a line of figures; `used_as` is what the list of bases calls it, else its symbol or name."""
    source = bases.source(limits.basis, place, used_as or symbol or name)
    return Line(
        place,
        name,
        None if symbol is None else Symbol.of(symbol),
        Figure.of(limits.min, source),
        Figure.of(limits.max, source),
        unit_written(limits.unit),
        source,
    )
