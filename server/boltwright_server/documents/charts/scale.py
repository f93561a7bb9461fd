"""A scale from figures to millimetres on paper, its ticks, and places for labels that do not meet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from ..figures import written

#: Steps between ticks, in parts of a decade: 1, 2, 5.
_STEPS = (1, 2, 5, 10)
_LONGEST = 11


@dataclass(frozen=True, slots=True)
class Scale:
    """Figures from `low` to `high` on the line from `start` to `end`."""

    low: float
    high: float
    start: float
    end: float

    @classmethod
    def around(cls, figures: Sequence[float], start: float, end: float, margin: float = 0.06) -> Scale:
        """Return the scale that holds all figures, with a margin in parts of their reach."""
        low, high = min(figures), max(figures)
        reach = high - low
        # Equal figures, or figures that a double hardly tells apart, still need a scale.
        if reach <= 1e-12 * max(abs(low), abs(high)):
            reach = 2 * max(abs(low), abs(high)) or 1.0
            margin = 0.5
        return cls(low - margin * reach, high + margin * reach, start, end)

    def at(self, figure: float) -> float:
        """Return the place of a figure."""
        return self.start + (figure - self.low) / (self.high - self.low) * (self.end - self.start)

    def ticks(self, most: int) -> tuple[Decimal, ...]:
        """Return at most about `most` round figures of the scale, their steps 1, 2 or 5 of a decade."""
        step = _step((self.high - self.low) / most)
        first = math.ceil(Decimal(repr(self.low)) / step)
        last = math.floor(Decimal(repr(self.high)) / step)
        return tuple(step * count for count in range(first, last + 1))

    def whole_ticks(self, most: int) -> tuple[Decimal, ...]:
        """Return the ticks that are whole numbers, for counts and numbers of points."""
        whole = (tick for tick in self.ticks(most) if tick == tick.to_integral_value())
        return tuple(tick.quantize(Decimal(1)) for tick in whole)


def _step(least: float) -> Decimal:
    decade = math.floor(math.log10(least))
    size = next((size for size in _STEPS if size * 10.0**decade >= least), _STEPS[-1])
    return Decimal(size).scaleb(decade)


def figure_written(figure: Decimal) -> str:
    """Return a figure for a chart; one too long for its room in powers of ten."""
    plain = Decimal(f"{figure:f}")
    text = written(plain)
    return text if len(text) <= _LONGEST else f"{figure:.4g}".replace("-", "\u2212")


def as_read(figure: float) -> Decimal:
    """Return a figure with the digits of its shortest text, 16.0 as 16."""
    return Decimal(repr(figure).removesuffix(".0"))


def stated(figure: float, decimals: int | None) -> str:
    """Return a computed figure with a number of decimals, none where that is below 0; with its own where it is None."""
    if decimals is None:
        return figure_written(as_read(figure))
    return figure_written(Decimal(f"{figure:.{max(decimals, 0)}f}"))


def decimals_for(reach: float) -> int | None:
    """Return the decimals that show three digits of a reach; None where there is no reach."""
    return 2 - math.floor(math.log10(reach)) if reach > 0 else None


def spread_out(places: Sequence[float], rooms: Sequence[float], low: float, high: float) -> list[float]:
    """Return centres for labels near their ascending `places`, so that none meets another or leaves low to high.

    `rooms` are their widths, or heights. Where they cannot all stay inside, the last ones leave above `high`.
    """
    found: list[float] = []
    edge = low
    for place, room in zip(places, rooms, strict=True):
        found.append(max(place, edge + room / 2))
        edge = found[-1] + room / 2
    edge = high
    for at in reversed(range(len(found))):
        if found[at] + rooms[at] / 2 > edge:
            found[at] = edge - rooms[at] / 2
        edge = found[at] - rooms[at] / 2
    shift = max(0.0, low - (found[0] - rooms[0] / 2)) if found else 0.0
    return [one + shift for one in found]
