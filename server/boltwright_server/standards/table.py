"""A printed table in memory: rows found by key or band, each cell with the basis that its file states."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from ..quantities import Basis, NotStandardised, cited
from ..quantities.basis import Method

#: A cell: a number, a word, or None where the standard gives no value.
Cell = Decimal | str | None
KeyCell = Decimal | str


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a printed table."""

    table: Table
    key: tuple[KeyCell, ...]
    cells: Mapping[str, Cell]
    marks: Mapping[str, str]

    def get(self, column: str) -> Decimal | None:
        """Return the number in `column`, or None where the standard gives none.

        Raises:
            KeyError: the table has no such column. That is a fault of the caller, not of a client.
        """
        value = self.cells[column]
        if isinstance(value, str):
            raise TypeError(f"{self.table.where}: column {column} holds words")
        return value

    def number(self, column: str) -> Decimal:
        """Return the number in `column`.

        Raises:
            NotStandardised: the standard gives none.
        """
        value = self.get(column)
        if value is None:
            keys = ", ".join(str(part) for part in self.key)
            raise NotStandardised(f"{self.table.cited} gives no {column} for {keys}")
        return value

    def withheld(self) -> Mapping[str, str]:
        """Return the columns in which nothing is held of this row though the standard has a value, with the reason."""
        return {name: why for name, why in self.table.withheld.items() if self.cells[name] is None}

    def word(self, column: str) -> str:
        """Return the word in `column`."""
        value = self.cells[column]
        if not isinstance(value, str):
            raise TypeError(f"{self.table.where}: column {column} holds numbers")
        return value

    def checked(self, column: str) -> str:
        """Return how the cell was checked."""
        return self.marks.get(column) or self.table.columns_checked.get(column) or self.table.checked

    def basis(self, column: str, method: Method = "tabulated", note: str | None = None) -> Basis:
        """Return the basis of the cell."""
        return self.table.standard.basis(self.table.printed_as, self.checked(column), method, note)


@dataclass(slots=True)
class Table:
    """One printed table. Immutable once the loader has filled it."""

    standard: Standard
    file: str
    printed_as: str
    content: str
    unit: str
    key: tuple[str, ...]
    checked: str
    note: str | None = None
    units: Mapping[str, str] = field(default_factory=dict)
    columns_checked: Mapping[str, str] = field(default_factory=dict)
    #: Column -> why its empty cells hold nothing though the standard has a value there.
    withheld: Mapping[str, str] = field(default_factory=dict)
    columns: tuple[str, ...] = ()
    rows: dict[tuple[KeyCell, ...], Row] = field(default_factory=dict)
    _bands: dict[tuple[KeyCell, ...], list[tuple[Decimal, Decimal, Row]]] = field(default_factory=dict)

    @property
    def where(self) -> str:
        """The place in the source tree, for whoever mends the file."""
        return f"{self.standard.folder}/{self.file}"

    @property
    def cited(self) -> str:
        """The place in the standard, for whoever reads an answer."""
        return f"{self.standard.cited}, {self.printed_as}"

    def unit_of(self, column: str) -> str:
        """Return the unit of a column."""
        return self.units.get(column, self.unit)

    def find(self, *key: KeyCell) -> Row | None:
        """Return the row with exactly this key, or None."""
        return self.rows.get(key)

    def find_in_band(self, size: Decimal, *rest: KeyCell) -> Row | None:
        """Return the row whose band is over its lower and up to and including its upper end, or None.

        `rest` are the key cells that are not part of the band, in the order of the file.
        """
        for over, up_to, row in self._bands.get(rest, ()):
            if over < size <= up_to:
                return row
        return None

    def column_values(self, column: str) -> Iterator[KeyCell]:
        """Yield the cells of a key column, in the order of the file."""
        at = self.key.index(column)
        return (key[at] for key in self.rows)

    def cells_by_check(self) -> dict[str, int]:
        """Return how many numbers of the table were checked in which way."""
        counts: dict[str, int] = {}
        for row in self.rows.values():
            for name, cell in row.cells.items():
                if name not in self.key and isinstance(cell, Decimal):
                    counts[row.checked(name)] = counts.get(row.checked(name), 0) + 1
        return counts

    def index_bands(self) -> None:
        """Prepare `find_in_band`; the loader calls this once."""
        over_at = next((i for i, name in enumerate(self.key) if name.endswith("_over")), None)
        if over_at is None:
            return
        for key, row in self.rows.items():
            over, up_to = key[over_at], key[over_at + 1]
            if isinstance(over, Decimal) and isinstance(up_to, Decimal):
                rest = key[:over_at] + key[over_at + 2 :]
                self._bands.setdefault(rest, []).append((over, up_to, row))


@dataclass(slots=True, eq=False)
class Standard:
    """A standard in one edition, with the tables that are held of it."""

    folder: str
    id: str
    edition: str
    title: str
    family: str
    note: str | None = None
    #: `[[product]]` entries as they stand in the file; the products layer reads them.
    products: tuple[Mapping[str, Any], ...] = ()
    tables: dict[str, Table] = field(default_factory=dict)
    #: What is to be said of single grades only, by their codes.
    note_of: Mapping[str, str] = field(default_factory=dict)
    #: Other numbers that the trade knows it by: DIN 125-1 is DIN 125.
    also: tuple[str, ...] = ()
    #: Clause -> how its rule was checked, of rules that stand in no table.
    clauses: Mapping[str, str] = field(default_factory=dict)

    @property
    def notes(self) -> tuple[str, ...]:
        """Everything that is to be said: of the whole standard, then of single grades."""
        return (*([self.note] if self.note else []), *dict.fromkeys(self.note_of.values()))

    @property
    def cited(self) -> str:
        """The way the trade cites it: number and year, joined as the body that publishes it does."""
        return cited(self.id, self.edition)

    def table(self, name: str) -> Table:
        """Return a table by its file name without `.csv`.

        Raises:
            KeyError: there is none. That is a fault of the caller, not of a client.
        """
        return self.tables[f"{name}.csv"]

    def basis(self, clause: str, checked: str, method: Method = "computed", note: str | None = None) -> Basis:
        """Return the basis of a figure of this standard: the only maker of one."""
        return Basis(self.id, self.edition, clause, method, checked, note)

    def clause(self, name: str, method: Method = "computed", note: str | None = None) -> Basis:
        """Return the basis of a rule that stands in a clause and in no table; the facts say how it was checked.

        Raises:
            KeyError: `[clauses]` does not list it. That is a fault of the caller, not of a client.
        """
        if name not in self.clauses:
            raise KeyError(f"{self.folder}/standard.toml: [clauses] has no {name!r}")
        return self.basis(name, self.clauses[name], method, note)

    def practice(self, clause: str, note: str | None = None) -> Basis:
        """Return the basis of what the trade does with parts of this standard, which does not ask for it in print."""
        return self.basis(clause, "memory", "common practice", note)
