"""Before judging: several readings of one piece, and tests that went wrong.

A replaced test is set aside with its reason and stays in the answer. A break at the head is never set aside.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import numpy as np

from ..quantities import Contradiction, member_path
from ..specification import Characteristic
from ..standards import rules
from .readings import Column

#: ISO 898-1:2013, clause 9.9 (from memory): readings at mid radius that differ by more show incomplete hardening.
_HARDNESS_SPREAD = 30
_NEVER_REPLACED = ("head_junction", "head")


def prepared(
    columns: Mapping[str, Column], characteristics: Mapping[str, Characteristic]
) -> tuple[dict[str, Column], list[str]]:
    """Return the columns to judge and what must be said of them.

    Raises:
        Contradiction: a replaced test whose piece broke at the head, or of a characteristic that destroys nothing.
    """
    notices: list[str] = []
    ready = {}
    for id, column in columns.items():
        if column.replaced:
            _check_replaced(column, columns.get("fracture_location"), characteristics[id])
            column = _set_aside(column, notices)
        if column.repeated is not None and column.pieces is not None:
            _say_spread(column, characteristics[id], notices)
            column = _averaged(column) if column.repeated == "mean" else column
        ready[id] = column
    return ready, notices


def _check_replaced(column: Column, fracture: Column | None, characteristic: Characteristic) -> None:
    member = member_path("readings", column.id, "replaced")
    if not characteristic.destructive:
        raise Contradiction(f"{column.id} destroys no piece: measure it again instead", member=member)
    if fracture is None:
        return
    located = dict(zip(fracture.pieces or range(len(fracture.values)), fracture.values, strict=True))
    for piece in column.replaced:
        if located.get(piece) in _NEVER_REPLACED:
            raise Contradiction(
                f"piece {piece + 1} broke at {located[piece]}: such a break is a failure and is never replaced",
                member=f"{member}/{piece}",
            )


def _set_aside(column: Column, notices: list[str]) -> Column:
    """Blank the readings of the replaced pieces, so that they are neither judged nor counted."""
    at = [i for i, piece in enumerate(column.pieces or range(len(column.values))) if piece in column.replaced]
    for index in at:
        piece = column.pieces[index] if column.pieces else index
        notices.append(f"{column.id}: piece {piece + 1} set aside, {column.replaced[piece]}")
    if isinstance(column.values, np.ndarray):
        values = column.values.copy()
        values[at] = np.nan
        return column._replace(values=values)
    return column._replace(values=[None if i in at else value for i, value in enumerate(column.values)])


def _by_piece(column: Column) -> dict[int, list[float]]:
    found: dict[int, list[float]] = {}
    for piece, value in zip(column.pieces or (), column.values, strict=True):
        if isinstance(value, float) and value == value:
            found.setdefault(piece, []).append(float(value))
    return found


def _averaged(column: Column) -> Column:
    """Return one reading a piece: the exact mean of its readings as written, then the nearest double."""
    if not isinstance(column.values, np.ndarray):
        raise Contradiction(
            f"{column.id} has no mean: use repeated: each", member=member_path("readings", column.id, "repeated")
        )
    by_piece = _by_piece(column)
    means = [sum((Fraction(repr(one)) for one in given), Fraction(0)) / len(given) for given in by_piece.values()]
    values = np.array([mean.numerator / mean.denominator for mean in means], dtype=np.float64)
    return column._replace(values=values, pieces=tuple(by_piece))


def _say_spread(column: Column, characteristic: Characteristic, notices: list[str]) -> None:
    """Flag pieces whose hardness readings differ too much; they are judged all the same."""
    if characteristic.id != "hardness_core" or column.unit not in (None, "HV"):
        return
    for piece, given in _by_piece(column).items():
        if max(given) - min(given) > _HARDNESS_SPREAD:
            notices.append(
                f"hardness_core: readings on piece {piece + 1} differ by {max(given) - min(given):g} HV, more than "
                f"{_HARDNESS_SPREAD}: check the hardening ({rules('ISO 898-1').cited}, clause 9.9, from memory)"
            )
