"""Before judging: columns that belong together, several readings of one piece, tests that went wrong. Index = piece.

A replaced test is set aside with its reason and stays in the answer. A break at the head is never set aside.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

import numpy as np

from ..quantities import Contradiction, NotUnderstood, member_path
from ..specification import Characteristic
from ..specification.characteristic import has_role, the_one, traits
from ..standards import rules
from .readings import Column, Floats, is_recorded
from .rules import DecisionRule

_EXACT_INTEGER = 2.0**53


def check_columns(columns: tuple[Column, ...], characteristics: dict[str, Characteristic]) -> None:
    """Refuse columns that cannot be judged together.

    Raises:
        Contradiction: non-destructive columns, or destructive ones, of unequal length; `pieces` that do not fit.
        NotUnderstood: a reading below zero, or a whole number that a double cannot hold.
    """
    found: dict[bool, dict[str, int]] = {False: {}, True: {}}
    for column in columns:
        _check_pieces(column)
        _check_values(column, characteristics[column.id])
        if is_recorded(column):
            _check_records(column)
        if column.pieces is None and not characteristics[column.id].of_lot:
            found[characteristics[column.id].destructive][column.id] = len(column.values)
    for destructive, lengths in found.items():
        if len(set(lengths.values())) > 1:
            kind = "destructive" if destructive else "non-destructive"
            listed = ", ".join(f"{id} {count}" for id, count in lengths.items())
            raise Contradiction(
                f"{kind} columns have unequal lengths ({listed}): index = piece, use null where none was measured, "
                "or name the pieces",
                member="readings",
                code="unequal_columns",
            )


def check_uncertainties(columns: tuple[Column, ...], default: DecisionRule) -> None:
    """Refuse measured columns that a guarded rule judges and that state no uncertainty, all of them at once.

    Raises:
        NotUnderstood: the columns are named.
    """
    ids = [
        column.id
        for column in columns
        if column.expanded_uncertainty is None
        and isinstance(column.values, np.ndarray)
        and (column.decision_rule or default).rule == "guarded"
    ]
    if ids:
        members = [member_path("readings", id, "expanded_uncertainty") for id in ids]
        raise NotUnderstood(
            f"a guarded rule needs expanded_uncertainty (0 is allowed) on {', '.join(ids)}",
            member=members[0],
            also=members[1:],
            code="uncertainty_missing",
        )


def _check_records(column: Column) -> None:
    for name, given in (("instrument", column.instrument), ("measured_at", column.measured_at)):
        if isinstance(given, tuple) and len(given) != len(column.values):
            raise Contradiction(
                f"{column.id}: {name} is one for the column or one for each of its {len(column.values)} readings, "
                f"not {len(given)}",
                member=member_path("readings", column.id, name),
                code="unequal_columns",
            )


def _check_pieces(column: Column) -> None:
    if column.pieces is None:
        return
    member = member_path("readings", column.id, "pieces")
    if len(column.pieces) != len(column.values):
        raise Contradiction(
            f"{column.id}: {len(column.pieces)} pieces for {len(column.values)} values",
            member=member,
            code="unequal_columns",
        )
    if any(piece < 0 for piece in column.pieces):
        raise NotUnderstood(f"{column.id}: pieces are whole numbers from 0", member=member)
    if column.repeated is None and len(set(column.pieces)) != len(column.pieces):
        raise NotUnderstood(
            f"{column.id}: a piece is named twice; say repeated: each or mean if it was measured several times",
            member=member,
        )


def _may_be_negative(characteristic: Characteristic) -> bool:
    """Whether readings below zero mean something: a set, a drop, or a limit of a drawing that allows them."""
    bounds = characteristic.bounds
    added = characteristic.id not in traits() and bounds is not None and (bounds.min is None or bounds.min < 0)
    return has_role(characteristic.id, "signed") or added


def _check_values(column: Column, characteristic: Characteristic) -> None:
    values = column.values
    if not isinstance(values, np.ndarray) or not values.size:
        return
    least, greatest = _extremes(values)
    if least >= 0 and greatest <= _EXACT_INTEGER:
        return
    if max(greatest, -least) > _EXACT_INTEGER:
        raise _out_of_range(column, np.abs(values) > _EXACT_INTEGER, "exceeds 2^53 and would lose digits")
    if least < 0 and not _may_be_negative(characteristic):
        raise _out_of_range(column, values < 0, "is below zero")


def _out_of_range(column: Column, where: np.ndarray, what: str) -> NotUnderstood:
    """Return the refusal of the first of the readings that cannot be."""
    at = int(np.flatnonzero(where)[0])
    place = () if column.bare else ("values",)
    return NotUnderstood(
        f"{column.id}: reading {column.values[at]} of piece {pieces_of(column, np.array([at]))[0] + 1} {what}",
        member=member_path("readings", column.id, *place, str(at)),
        code="out_of_range",
    )


def _extremes(values: Floats) -> tuple[float, float]:
    """Return the least and the greatest reading, zero among them; pieces that were not measured are passed over."""
    if values.size == 1:
        reading = float(values[0])
        return min(0.0, reading), max(0.0, reading)
    return np.fmin.reduce(values, initial=0.0), np.fmax.reduce(values, initial=0.0)


def pieces_of(column: Column, at: np.ndarray) -> list[int]:
    """Return the piece numbers of the given positions."""
    if column.pieces is None:
        return [int(index) for index in at]
    return [column.pieces[index] for index in at]


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
            _check_replaced(column, columns.get(the_one("location")), characteristics[id])
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
    if not has_role(characteristic.id, "core") or column.unit not in (None, "HV"):
        return
    for piece, given in _by_piece(column).items():
        if max(given) - min(given) > _HARDNESS_SPREAD:
            notices.append(
                f"{column.id}: readings on piece {piece + 1} differ by {max(given) - min(given):g} HV, more than "
                f"{_HARDNESS_SPREAD}: check the hardening ({rules('ISO 898-1').cited}, clause 9.9, from memory)"
            )
