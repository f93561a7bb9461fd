"""What a lot's blocks of readings add up to, characteristic by characteristic.

One block is the usual case and gives exact figures of the whole column; further blocks are merged into them, so that a
lot of any size is judged in bounded memory.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from ..specification import Characteristic
from .blocks import MOST_PIECES_LISTED, Block
from .column_plan import ColumnPlan
from .risks import Risks
from .statistics import Statistics, merged

_DISPUTED = "because the sources disagree on the limits of that scale and no edition was named"


@dataclass(frozen=True, slots=True)
class CharacteristicVerdict:
    """What was found of one characteristic."""

    plan: ColumnPlan
    verdict: str
    count: int
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
    blocks: int = 0
    count: int = 0
    nonconforming_count: int = 0
    undecided_count: int = 0
    nonconforming_pieces: list[int] = field(default_factory=list)
    statistics: Statistics | None = None
    margin: float | None = None
    outlying: tuple[int, ...] = ()
    risks: Risks | None = None
    doubt: str | None = None

    def add(self, block: Block) -> None:
        """Add a block."""
        self.count += block.count
        self.nonconforming_count += len(block.bad)
        self.undecided_count += block.undecided_count
        room = MOST_PIECES_LISTED - len(self.nonconforming_pieces)
        self.nonconforming_pieces.extend(block.bad[: max(0, room)])
        self.statistics = merged(self.plan, self.statistics, block.statistics)
        self.margin = min((least for least in (self.margin, block.margin) if least is not None), default=None)
        # Both speak of a whole column; a stream never has one in memory.
        self.outlying, self.risks = ((), None) if self.blocks else (block.outlying, block.risks)
        self.doubt = self.doubt or block.doubt
        self.blocks += 1

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
