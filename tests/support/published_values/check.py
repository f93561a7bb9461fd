"""Reads the files of published values; refuses one that does not say where it is printed and how it was checked."""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

PUBLISHED = Path(__file__).parents[2] / "published"
_ABOUT = {"standard", "edition", "check"}
_ABOUT_OPTIONS = {"note"}
_CHECK = {"file", "question", "printed_in", "checked", "unit", "ask"}
_CHECK_OPTIONS = {"info", "note", "allowed_difference", "input", "dash"}
#: What a dash under an expected column means: the standard gives no value (and the answer must give none), or the
#: source does not print the cell (and nothing is compared).
_DASH = ("no value", "not printed")

#: A row of a file, by column.
Cells = dict[str, str]


class BadCheck(ValueError):
    """A file of published values that does not say what it is."""


@dataclass(frozen=True)
class Check:
    """One CSV: `ask` are the columns of the question, `info` is for the reader, every other column is expected.

    `allowed_difference` is the margin of a print that is off in its last digit here and there.
    """

    folder: str
    standard: str
    edition: str
    file: str
    question: str
    ask: tuple[str, ...]
    info: tuple[str, ...]
    rows: tuple[Cells, ...]
    allowed_difference: str | None = None
    dash: str = _DASH[0]

    @property
    def id(self) -> str:
        """The place below tests/published."""
        return f"{self.folder}/{self.file}"

    @property
    def expected(self) -> tuple[str, ...]:
        """The columns that must agree."""
        return tuple(column for column in self.rows[0] if column not in self.ask + self.info)


def load_checks(root: Path = PUBLISHED) -> list[Check]:
    """Return every check of every folder, in the order of the files."""
    return [check for about in sorted(root.glob("*/about.toml")) for check in _checks_of(about)]


def _checks_of(about: Path) -> Iterator[Check]:
    entries = tomllib.loads(about.read_text(encoding="utf-8"))
    _members(entries, _ABOUT, _ABOUT_OPTIONS, str(about))
    for entry in entries["check"]:
        _members(entry, _CHECK, _CHECK_OPTIONS, f"{about}, {entry.get('file')}")
        check = Check(
            about.parent.name,
            entries["standard"],
            entries["edition"],
            entry["file"],
            entry["question"],
            tuple(entry["ask"]),
            tuple(entry.get("info", ())),
            tuple(_rows(about.parent / entry["file"])),
            entry.get("allowed_difference"),
            entry.get("dash", _DASH[0]),
        )
        _columns_named(check)
        yield check
    named = {name for entry in entries["check"] for name in (entry["file"], *entry.get("input", ()))}
    if unnamed := {path.name for path in about.parent.glob("*.csv")} - named:
        raise BadCheck(f"{about} does not name {', '.join(sorted(unnamed))}")


def _members(entry: dict[str, Any], needed: set[str], options: set[str], where: str) -> None:
    missing = sorted(member for member in needed if not entry.get(member))
    if missing:
        raise BadCheck(f"{where}: {', '.join(missing)} missing")
    if unknown := sorted(set(entry) - needed - options):
        raise BadCheck(f"{where}: unknown {', '.join(unknown)}")


def _rows(path: Path) -> list[Cells]:
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file, strict=True))
    for number, row in enumerate(rows, start=2):
        if None in row or any(cell is None or cell == "" for cell in row.values()):
            raise BadCheck(f"{path.parent.name}/{path.name}, row {number}: a cell is missing; write - for no value")
    if not rows:
        raise BadCheck(f"{path} has no rows")
    return rows


def _columns_named(check: Check) -> None:
    header = check.rows[0]
    if unknown := [name for name in check.ask + check.info if name not in header]:
        raise BadCheck(f"{check.id} has no column {', '.join(unknown)}")
    if check.dash not in _DASH:
        raise BadCheck(f"{check.id}: dash is {' or '.join(_DASH)}")
    if not check.expected:
        raise BadCheck(f"{check.id} expects nothing")
