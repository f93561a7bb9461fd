"""Readings of a lot, gathered piece by piece, from a CSV file, or from a frame, ready for `Client.conformance`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields
from decimal import Decimal
from pathlib import Path
from typing import Any, Self

from ..readings import Column, Reading
from ..readings_file import INDEX, PIECE, cells_read, header_read, read_readings

_DETAILS = frozenset(one.name for one in fields(Column)) - {"values", "pieces"}


@dataclass(slots=True)
class _Gathered:
    """Readings of one characteristic with their pieces, and what stands beside them."""

    values: list[Reading] = field(default_factory=list)
    pieces: list[int] = field(default_factory=list)
    details: dict[str, Any] = field(default_factory=dict)


class Readings(Mapping[str, Column]):
    """The readings of a lot by characteristic id.

    readings = Readings()
    readings.beside("tensile_load", unit="kN")
    readings.add(width_across_flats=15.86, length=59.8, thread_go_gauge=True)
    readings.add(width_across_flats=15.84, length=60.1, thread_go_gauge=True)
    readings.add(piece=7, tensile_load=53.0, fracture_location="thread")
    client.conformance("ISO 4014 - M10x60 - 8.8", readings)
    """

    def __init__(self) -> None:
        self._columns: dict[str, _Gathered] = {}
        self._next = 1

    def add(self, piece: int | None = None, /, **measured: Reading) -> int:
        """Add what was measured on a piece, and return its number; None is not measured.

        Args:
            piece: its number from 1; without one the number after the greatest so far. Answers list indexes from 0.
            measured: readings by characteristic id. One that is named again on the same piece is a repeated reading:
                say with `beside` how such readings count.

        Raises:
            ValueError: a piece below 1. TypeError: a reading that is no number, flag or word.
        """
        named = measured.pop(PIECE, None)
        number = self._next if piece is None and named is None else _number(named if piece is None else piece)
        for id, value in measured.items():
            self._append(id, value, number)
        self._next = max(self._next, number + 1)
        return number

    def beside(self, id: str, **details: Any) -> Self:
        """Say what stands beside the readings of a characteristic: any member of `Column` but values and pieces.

        Raises:
            TypeError: there is no such member.
        """
        for name in details:
            if name not in _DETAILS:
                raise TypeError(f"{name!r} stands beside no readings; it is one of {', '.join(sorted(_DETAILS))}")
        self._of(id).details.update(details)
        return self

    @classmethod
    def from_csv(cls, path: str | Path) -> Readings:
        """Return the readings of a CSV file, as `boltwright.readings_file` reads it: one row a piece.

        Raises:
            OSError: the file cannot be opened. ValueError: it cannot be read; the message names line and column.
        """
        found = cls()
        for id, column in read_readings(path).items():
            found._extend(id, list(column.values), [index + 1 for index in column.pieces or ()], column.unit)
        return found

    @classmethod
    def from_frame(cls, frame: Any) -> Readings:
        """Return the readings of a pandas frame: one row a piece, one column a characteristic; pandas is not imported.

        Columns are named as in a CSV file, `tensile_load [kN]`; a column `piece` numbers the pieces from 1, `index`
        from 0; without either they follow as the rows do. NaN, NA, None: not measured; text is read as in a CSV file.

        Raises:
            ValueError: a column that is no characteristic, or a cell that is no reading; the message names them.
        """
        found = cls()
        headers = [(*header_read(str(name), at), name) for at, name in enumerate(frame.columns, 1)]
        columns = {id: (unit, _cells(id, frame[name])) for id, unit, name in headers}
        if len(columns) != len(headers):
            raise ValueError("two columns of the frame name the same characteristic")
        pieces = list(range(1, len(frame) + 1))
        for name, shift in ((INDEX, 1), (PIECE, 0)):
            _, numbers = columns.pop(name, (None, None))
            pieces = pieces if numbers is None else [_number(one, 1 - shift) + shift for one in numbers]
        for id, (unit, values) in columns.items():
            found._extend(id, values, pieces, unit)
        return found

    def _extend(self, id: str, values: Sequence[Reading], pieces: Sequence[int], unit: str | None) -> None:
        column = self._of(id)
        if unit is not None:
            column.details["unit"] = unit
        column.values += values
        column.pieces += pieces
        self._next = max(self._next, *(piece + 1 for piece in pieces))

    def _append(self, id: str, value: Reading, piece: int) -> None:
        value = getattr(value, "item", lambda: value)()  # a number of an array library hands out a plain one
        if not isinstance(value, int | float | Decimal | str | None):
            raise TypeError(f"{id}: a reading is a number, true or false, a word, or None, not {value!r}")
        column = self._of(id)
        column.values.append(value)
        column.pieces.append(piece)

    def _of(self, id: str) -> _Gathered:
        return self._columns.setdefault(id, _Gathered())

    def __getitem__(self, id: str) -> Column:
        """Return the column of a characteristic; one without readings is none."""
        found = self._columns[id]
        if not found.values:
            raise KeyError(id)
        return Column(tuple(found.values), pieces=tuple(piece - 1 for piece in found.pieces), **found.details)

    def __iter__(self) -> Iterator[str]:
        """Iterate over the ids of the characteristics with readings."""
        return (id for id, found in self._columns.items() if found.values)

    def __len__(self) -> int:
        """How many characteristics have readings."""
        return sum(1 for _ in self)

    def __repr__(self) -> str:
        """Say how much was measured."""
        held = ", ".join(f"{id}: {len(self._columns[id].values)}" for id in self)
        return f"Readings({held})"


def _number(given: Any, first: int = 1) -> int:
    if isinstance(given, bool) or not isinstance(given, int | float) or given != int(given) or given < first:
        raise ValueError(f"a piece has a whole number from {first} on, not {given!r}")
    return int(given)


def _cells(id: str, series: Any) -> list[Reading]:
    """Return the cells of a series as plain readings; text is read like the cells of a CSV file."""
    cells = [None if missing else value for value, missing in zip(series.tolist(), series.isna().tolist(), strict=True)]
    if not any(isinstance(cell, str) for cell in cells):
        return cells
    texts = [("" if cell is None else str(cell).strip()) for cell in cells]
    return cells_read(id, [(f"row {at}", text) for at, text in enumerate(texts, 1)])
