"""What a lot's blocks of readings add up to, characteristic by characteristic.

One block is the usual case and gives exact figures of the whole column; further blocks are merged into them, so that a
lot of any size is judged in bounded memory.
"""

from __future__ import annotations

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
    #: None where readings came in several blocks: outliers speak of a whole column.
    outlying_pieces: tuple[int, ...] | None
    risks: Risks | None
    #: Why pieces are undecided, where the uncertainty is not the reason.
    doubt: str | None = None
    #: Below a minimum that is guidance (listed up to a number), and undecided only where that minimum binds.
    guided_count: int = 0
    guided_pieces: tuple[int, ...] = ()
    guided_undecided: int = 0

    @property
    def id(self) -> str:
        """The characteristic's id."""
        return self.plan.characteristic.id

    @property
    def characteristic(self) -> Characteristic:
        """What was judged."""
        return self.plan.characteristic


def verdict_of(block: Block) -> CharacteristicVerdict:
    """Return the verdict on a first block."""
    failed = len(block.bad)
    return CharacteristicVerdict(
        block.plan,
        verdict_word(block.measured_count, failed, block.undecided_count),
        block.measured_count,
        failed,
        block.undecided_count,
        tuple(block.bad[:MOST_PIECES_LISTED]),
        failed > MOST_PIECES_LISTED,
        block.statistics,
        block.margin,
        block.outlying,
        block.risks,
        block.doubt or (None if block.plan.decidable else _DISPUTED),
        len(block.guided),
        block.guided[:MOST_PIECES_LISTED],
        block.guided_undecided,
    )


def with_block(one: CharacteristicVerdict, block: Block) -> CharacteristicVerdict:
    """Return the verdict on all blocks so far and a further one."""
    count, failed = one.measured_count + block.measured_count, one.nonconforming_count + len(block.bad)
    undecided = one.undecided_count + block.undecided_count
    room = MOST_PIECES_LISTED - len(one.nonconforming_pieces)
    return CharacteristicVerdict(
        one.plan,
        verdict_word(count, failed, undecided),
        count,
        failed,
        undecided,
        (*one.nonconforming_pieces, *block.bad[:room]),
        failed > MOST_PIECES_LISTED,
        merged(one.plan, one.statistics, block.statistics),
        min((least for least in (one.margin, block.margin) if least is not None), default=None),
        # Outliers and risks speak of a whole column; a stream never has one in memory.
        None,
        None,
        one.doubt or block.doubt,
        one.guided_count + len(block.guided),
        (*one.guided_pieces, *block.guided)[:MOST_PIECES_LISTED],
        one.guided_undecided + block.guided_undecided,
    )


def verdict_word(count: int, failed: int, undecided: int) -> str:
    """Return the verdict that the counts of a characteristic make."""
    if failed:
        return "nonconforming"
    return "undecided" if undecided or not count else "conforming"
