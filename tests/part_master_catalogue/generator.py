"""Rows with their truth: the same seed gives the same catalogue, byte for byte."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from random import Random

from . import figures, spelling
from .faults import FAULTS
from .parts import Part, all_parts
from .spoilt import Spoilt

COLUMNS = (
    "part_number",
    "description",
    "designation",
    "standard",
    "thread",
    "length",
    "property_class",
    "coating",
    "mates_with",
    "width_across_flats",
    "head_height",
    "nut_height",
    "tensile_load",
    "proof_load",
    "nut_proof_load",
    "tensile_strength",
    "hardness_core",
    "mass_per_1000",
)
TRUTH_COLUMNS = ("row", "codes", "designation")
#: Share of the rows that are spoilt.
SPOILT = 0.05
_DUPLICATES = ("duplicate-part-number", "duplicate-requirement")
CODES = (*FAULTS, *_DUPLICATES)
_REMEMBERED = 2000


@dataclass(slots=True)
class Master:
    """One row of the catalogue and its truth: `designation` is empty where no designation can be certain."""

    cells: list[str]
    codes: set[str]
    designation: str


class _Catalogue:
    """Draws parts, none twice, and keeps what was asked for, so that no two rows ask for the same by accident."""

    def __init__(self, seed: int) -> None:
        self._chance = Random(seed)
        self._all = list(all_parts())
        self._chance.shuffle(self._all)
        self._parts = iter(self._all)
        self._asked: set[str] = set()
        self._earlier: list[tuple[str, Part]] = []
        self._number = 0

    def right(self) -> Master:
        part = self._next_part()
        row = spelling.written(part, self._chance) | figures.stored(part, self._chance)
        return self._master(part, Spoilt(row, set(), part.canonical, part.requirement))

    def spoilt(self, code: str) -> Master:
        if code in _DUPLICATES and self._earlier:
            return self._duplicate(code)
        fault = FAULTS.get(code, FAULTS["unreadable"])
        while True:
            part = self._any_part()
            found = fault(part, self._chance)
            if found is not None and (not found.requirement or found.requirement not in self._asked):
                return self._master(None, found)

    def _duplicate(self, code: str) -> Master:
        number, part = self._chance.choice(self._earlier)
        if code == "duplicate-requirement":
            row = spelling.written(part, self._chance)
            return self._master(None, Spoilt(row, {code}, part.canonical))
        part = self._any_part()
        found = Spoilt(spelling.written(part, self._chance), {code}, part.canonical, part.requirement)
        return self._master(None, found, number)

    def _next_part(self) -> Part:
        return next(part for part in self._parts if part.requirement not in self._asked)

    def _any_part(self) -> Part:
        """Return a part that no row asked for yet, whether its turn has come or not."""
        while True:
            part = self._chance.choice(self._all)
            if part.requirement not in self._asked:
                return part

    def _master(self, part: Part | None, found: Spoilt, number: str = "") -> Master:
        self._number += 1
        number = number or f"{self._chance.choice(('BW-', '4711.', 'A', ''))}{self._number:07d}"
        if found.requirement:
            self._asked.add(found.requirement)
        if part is not None and len(self._earlier) < _REMEMBERED:
            self._earlier.append((number, part))
        row = {**found.row, "part_number": number}
        return Master([row.get(name, "") for name in COLUMNS] + found.extra_cells, found.codes, found.designation)


def masters(seed: int, count: int) -> Iterator[Master]:
    """Yield rows with their truth. Faults come in turns, so that every code is seeded equally often."""
    catalogue, chance = _Catalogue(seed), Random(seed + 1)
    spoilt_rows = set(chance.sample(range(count), round(count * SPOILT)))
    turn = 0
    for row in range(count):
        if row in spoilt_rows:
            yield catalogue.spoilt(CODES[turn % len(CODES)])
            turn += 1
        else:
            yield catalogue.right()


def write(folder: Path, seed: int, count: int) -> tuple[Path, Path]:
    """Write `part_masters.csv` and `truth.csv` into the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    rows_path, truth_path = folder / "part_masters.csv", folder / "truth.csv"
    with (
        rows_path.open("w", encoding="utf-8", newline="") as rows,
        truth_path.open("w", encoding="utf-8", newline="") as truth,
    ):
        row_writer, truth_writer = csv.writer(rows), csv.writer(truth)
        row_writer.writerow(COLUMNS)
        truth_writer.writerow(TRUTH_COLUMNS)
        for number, master in enumerate(masters(seed, count)):
            row_writer.writerow(master.cells)
            truth_writer.writerow((number, " ".join(sorted(master.codes)), master.designation))
    return rows_path, truth_path
