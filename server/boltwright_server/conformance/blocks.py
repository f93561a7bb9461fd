"""What one block of readings of a characteristic comes to: counted, never more than its figures.

A block of many readings is judged as arrays; one reading, what a machine asks for, without them.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from .attribute import refused
from .column_plan import ColumnPlan
from .columns import pieces_of
from .findings import Mask, findings
from .margin import margin
from .measured import Outcome
from .outliers import outliers
from .readings import Column
from .risks import Risks, risks_of
from .statistics import Statistics, in_order, statistics, statistics_of_one
from .tensile import PULLED

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


def is_single(plan: ColumnPlan, column: Column) -> bool:
    """Return whether a column is one reading that is judged by itself, whatever else is known of the piece."""
    return (
        len(column.values) == 1
        and column.pieces is None
        and plan.characteristic.over_core is None
        and column.id not in PULLED
    )


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
