"""What blocks of readings come to: counted, and added up characteristic by characteristic.

A block of many readings is judged as arrays; one reading, what a machine asks for, without them. One block is the usual
case and gives exact figures of the whole column; further blocks are merged into them, so that a lot of any size is
judged in bounded memory.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from ..specification import Characteristic
from .column_plan import ColumnPlan
from .columns import pieces_of
from .decide import Mask, Outcome, findings, margin, refused
from .readings import Column
from .risks import Risks, risks_of
from .statistics import Statistics, in_order, merged, outliers, statistics, statistics_of_one

#: Piece numbers are listed up to this many; the counts are always whole.
MOST_PIECES_LISTED = 100


class Block(NamedTuple):
    """The figures of a block. `bad` numbers its nonconforming pieces, each once."""

    plan: ColumnPlan
    measured_count: int
    bad: list[int]
    undecided_count: int
    statistics: Statistics | None = None
    margin: float | None = None
    outlying: tuple[int, ...] = ()
    risks: Risks | None = None
    notices: tuple[str, ...] = ()
    doubt: str | None = None
    #: Pieces below a minimum that is guidance, and how many are undecided where that minimum binds.
    guided: tuple[int, ...] = ()
    guided_undecided: int = 0


def block_of_one(plan: ColumnPlan, column: Column, piece: int) -> Block:
    """Return the block of a single reading of the piece with that number."""
    value = column.values[0]
    if plan.gate is None:
        return Block(plan, int(value is not None), [piece] if refused(plan, [value])[0] else [], 0)
    reading = float(value)  # type: ignore[arg-type]
    measured, nonconforming, undecided = findings(plan, reading)
    guided, guided_undecided = False, False
    if plan.gate_without_minimum is not None:
        _, above, doubtful = findings(plan, reading, plan.gate_without_minimum)
        guided, guided_undecided = nonconforming and not above, undecided
        nonconforming, undecided = above, doubtful
    return Block(
        plan,
        int(measured),
        [piece] if nonconforming else [],
        int(undecided),
        statistics_of_one(reading) if measured else None,
        margin(plan, reading, reading) if measured else None,
        (),
        None,
        plan.notices,
        None,
        (piece,) if guided else (),
        int(guided_undecided),
    )


def block_of(column: Column, outcome: Outcome, first_piece: int, with_risks: bool, whole: bool) -> Block:
    """Return the block of a judged column; outliers and risks speak of a `whole` column, never of a part."""
    plan, values = outcome.plan, column.values
    bad = _pieces(column, outcome.nonconforming, first_piece)
    undecided = set(_pieces(column, outcome.undecided, first_piece)).difference(bad)
    guided, guided_undecided = _guided(column, outcome, first_piece, bad)
    count = len(_pieces(column, outcome.measured, 0)) if column.repeated else int(np.count_nonzero(outcome.measured))
    if not isinstance(values, np.ndarray):
        return Block(plan, count, bad, len(undecided), notices=outcome.notices, doubt=outcome.doubt)
    ordered = in_order(values)
    return Block(
        plan,
        count,
        bad,
        len(undecided),
        statistics(plan, ordered),
        margin(plan, float(ordered[0]), float(ordered[-1])) if ordered.size else None,
        tuple(pieces_of(column, outliers(values, ordered)[:MOST_PIECES_LISTED])) if whole else (),
        risks_of(column, outcome) if whole and with_risks else None,
        outcome.notices,
        outcome.doubt,
        guided,
        guided_undecided,
    )


def _guided(column: Column, outcome: Outcome, first_piece: int, bad: list[int]) -> tuple[tuple[int, ...], int]:
    """Pieces below a minimum that is guidance, and the number that is undecided where it binds."""
    if outcome.guided is None or outcome.guided_undecided is None:
        return (), 0
    below = set(_pieces(column, outcome.guided, first_piece)).difference(bad)
    undecided = set(_pieces(column, outcome.guided_undecided, first_piece)).difference(bad, below)
    return tuple(sorted(below)), len(undecided)


def _pieces(column: Column, mask: Mask, first_piece: int) -> list[int]:
    """Piece numbers under a mask, each once and in ascending order."""
    if not np.count_nonzero(mask):
        return []
    numbers = pieces_of(column, np.flatnonzero(mask))
    return [number + first_piece for number in (numbers if column.pieces is None else sorted(set(numbers)))]


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
