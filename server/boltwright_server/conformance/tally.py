"""What a lot's blocks of readings add up to, characteristic by characteristic.

One block is the usual case and gives exact figures of the whole column; further blocks are merged into them, so that a
lot of any size is judged in bounded memory.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from ..specification import Characteristic
from .columns import pieces_of
from .margin import margin
from .measured import Mask, Outcome
from .outliers import outliers
from .readings import Column
from .risks import Risks, risks_of
from .statistics import Statistics, in_order, merged, statistics

#: Piece numbers are listed up to this many; the counts are always whole.
MOST_PIECES_LISTED = 100


@dataclass(frozen=True, slots=True)
class CharacteristicVerdict:
    """What was found of one characteristic."""

    id: str
    verdict: str
    characteristic: Characteristic
    outcome: Outcome
    count: int
    nonconforming_count: int
    undecided_count: int
    nonconforming_pieces: tuple[int, ...]
    truncated: bool
    statistics: Statistics | None
    margin: float | None
    outlying_pieces: tuple[int, ...]
    risks: Risks | None


@dataclass(slots=True)
class Tally:
    """The sum of the blocks of one characteristic."""

    characteristic: Characteristic
    blocks: int = 0
    count: int = 0
    nonconforming_count: int = 0
    undecided_count: int = 0
    nonconforming_pieces: list[int] = field(default_factory=list)
    statistics: Statistics | None = None
    margin: float | None = None
    outlying: tuple[int, ...] = ()
    risks: Risks | None = None
    outcome: Outcome | None = None

    def add(self, column: Column, outcome: Outcome, first_piece: int, with_risks: bool) -> list[int]:
        """Add a judged block and return the numbers of its nonconforming pieces."""
        bad = _pieces(column, outcome.nonconforming, first_piece)
        undecided = set(_pieces(column, outcome.undecided, first_piece)).difference(bad)
        self.count += (
            len(_pieces(column, outcome.measured, 0)) if column.repeated else int(np.count_nonzero(outcome.measured))
        )
        self.nonconforming_count += len(bad)
        self.undecided_count += len(undecided)
        room = MOST_PIECES_LISTED - len(self.nonconforming_pieces)
        self.nonconforming_pieces.extend(bad[: max(0, room)])
        if isinstance(column.values, np.ndarray):
            self._add_figures(column, outcome, with_risks)
        self.outcome = outcome.without_masks()
        self.blocks += 1
        return bad

    def _add_figures(self, column: Column, outcome: Outcome, with_risks: bool) -> None:
        values = column.values
        assert isinstance(values, np.ndarray)
        ordered = in_order(values)
        found = statistics(ordered, outcome.limits, outcome.unit)
        self.statistics = merged(self.statistics, found, outcome.limits, outcome.unit)
        least = margin(ordered, outcome.limits, outcome.unit)
        self.margin = least if self.margin is None or least is None else min(self.margin, least)
        if self.blocks == 0:
            self.outlying = tuple(pieces_of(column, outliers(values, ordered)[:MOST_PIECES_LISTED]))
            self.risks = risks_of(column, outcome) if with_risks else None
        else:
            # Both speak of a whole column; a stream never has one in memory.
            self.outlying, self.risks = (), None

    def verdict(self) -> CharacteristicVerdict:
        """Return what was found."""
        assert self.outcome is not None
        word = "nonconforming" if self.nonconforming_count else "undecided" if self.undecided_count else "conforming"
        return CharacteristicVerdict(
            self.characteristic.id,
            word if self.count else "undecided",
            self.characteristic,
            self.outcome,
            self.count,
            self.nonconforming_count,
            self.undecided_count,
            tuple(self.nonconforming_pieces),
            self.nonconforming_count > MOST_PIECES_LISTED,
            self.statistics,
            self.margin,
            self.outlying,
            self.risks,
        )


def _pieces(column: Column, mask: Mask, first_piece: int) -> list[int]:
    """Piece numbers under a mask, each once and in ascending order."""
    if not np.count_nonzero(mask):
        return []
    numbers = pieces_of(column, np.flatnonzero(mask))
    return [number + first_piece for number in (numbers if column.pieces is None else sorted(set(numbers)))]
