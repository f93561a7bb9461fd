"""What a lot's blocks of readings add up to, characteristic by characteristic.

One block is the usual case and gives exact figures of the whole column; further blocks are merged into them, so that a
lot of any size is judged in bounded memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from ..specification import Characteristic
from .blocks import MOST_PIECES_LISTED, Block
from .column_plan import ColumnPlan
from .risks import Risks
from .statistics import Statistics, merged

_DISPUTED = "because the sources disagree on the limits of that scale and no edition was named"


class CharacteristicVerdict(NamedTuple):
    """What was found of one characteristic."""

    plan: ColumnPlan
    verdict: str
    measured_count: int
    nonconforming_count: int
    undecided_count: int
    nonconforming_pieces: tuple[int, ...]
    truncated: bool
    statistics: Statistics | None
    margin: float | None
    outlying_pieces: tuple[int, ...]
    risks: Risks | None
    #: Why pieces are undecided, where the uncertainty is not the reason.
    doubt: str | None = None

    @property
    def id(self) -> str:
        """The characteristic's id."""
        return self.plan.characteristic.id

    @property
    def characteristic(self) -> Characteristic:
        """What was judged."""
        return self.plan.characteristic


@dataclass(slots=True)
class Tally:
    """The sum of the blocks of one characteristic."""

    plan: ColumnPlan
    count: int
    nonconforming_count: int
    undecided_count: int
    nonconforming_pieces: list[int]
    statistics: Statistics | None
    margin: float | None
    #: Both speak of a whole column; a stream never has one in memory.
    outlying: tuple[int, ...]
    risks: Risks | None
    doubt: str | None

    @classmethod
    def of(cls, block: Block) -> Tally:
        """Return the sum of a first block."""
        return cls(
            block.plan,
            block.measured_count,
            len(block.bad),
            block.undecided_count,
            block.bad[:MOST_PIECES_LISTED],
            block.statistics,
            block.margin,
            block.outlying,
            block.risks,
            block.doubt,
        )

    def add(self, block: Block) -> None:
        """Add a further block."""
        self.count += block.measured_count
        self.nonconforming_count += len(block.bad)
        self.undecided_count += block.undecided_count
        room = MOST_PIECES_LISTED - len(self.nonconforming_pieces)
        self.nonconforming_pieces.extend(block.bad[: max(0, room)])
        self.statistics = merged(self.plan, self.statistics, block.statistics)
        self.margin = min((least for least in (self.margin, block.margin) if least is not None), default=None)
        self.outlying, self.risks = (), None
        self.doubt = self.doubt or block.doubt

    def verdict(self) -> CharacteristicVerdict:
        """Return what was found."""
        word = "nonconforming" if self.nonconforming_count else "undecided" if self.undecided_count else "conforming"
        return CharacteristicVerdict(
            self.plan,
            word if self.count else "undecided",
            self.count,
            self.nonconforming_count,
            self.undecided_count,
            tuple(self.nonconforming_pieces),
            self.nonconforming_count > MOST_PIECES_LISTED,
            self.statistics,
            self.margin,
            self.outlying,
            self.risks,
            self.doubt or (None if self.plan.decidable else _DISPUTED),
        )
