"""A catalogue file in, a file of findings out; a run that was interrupted goes on where it stopped.

While the run lasts the findings are a draft beside their place, and beside it lies a state file. Behind each part the
draft is on the disk first, then the state says so: after an interruption whatever the state does not know is cut off,
so that no row is lost or doubled. The draft takes its place when it is whole.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import os
import sqlite3
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO

from ...transport import Connection
from .answers import COLUMNS, SEVERITIES, Row, cells_of
from .columns import Columns, look
from .parts import Part, Source
from .place import check_place
from .rows import PATH, ask
from .state import State

Progress = Callable[[int, int], None]
#: What a state file holds; raised where an older one cannot be gone on with.
_STATE = 2


@dataclass(slots=True)
class Totals:
    """What a run came to so far: rows by status and by the code of a finding; `gravity` of a code is its index in
    `SEVERITIES`."""

    rows: int = 0
    statuses: Counter[str] = field(default_factory=Counter)
    codes: Counter[str] = field(default_factory=Counter)
    gravity: dict[str, int] = field(default_factory=dict)
    columns: Columns = field(default_factory=Columns)
    #: Why an interrupted run was not gone on with, where one lay there.
    begun_anew: str | None = None

    def add(self, rows: Iterable[Row]) -> None:
        """Count rows."""
        for row in rows:
            self.rows += 1
            self.statuses[row["status"]] += 1
            self.codes.update({one["code"] for one in row["findings"]})
            for one in row["findings"]:
                self.gravity[one["code"]] = SEVERITIES.index(one["severity"])

    @property
    def gravest(self) -> str | None:
        """The gravest severity that was found, None where nothing was."""
        return SEVERITIES[min(self.gravity.values())] if self.gravity else None


def validate_file(
    connection: Connection,
    source: Source,
    out: Path,
    *,
    restart: bool = False,
    progress: Progress = lambda done, rows: None,
) -> Totals:
    """Validate a catalogue file and write one line for each of its rows: CSV, or NDJSON where `out` ends so.

    A file that is there is replaced when the findings are whole; until then they lie beside it, as `out` with `.part`.

    Args:
        restart: begin anew even if an interrupted run could go on.
        progress: called at the start and behind each part with what of the source is done, and the rows so far.

    Raises:
        ValueError: `out` is the catalogue itself, of no known form, in no folder, or being written by another run.
        Error: the service gives no answer; call again to go on.
    """
    check_place(out)
    form = _form(out, source.path)
    columns = look(connection, PATH, source)
    head, write = form(source.delimiter)
    try:
        with State(out, _run_id(source), restart) as state, state.draft.open("r+b" if state.rows else "w+b") as file:
            totals = _totals_of(state, columns)
            file.seek(state.size)
            file.truncate()
            if state.size == 0:
                file.write(head)
            progress(0, totals.rows)
            for part in source.parts(state.position):
                rows = _asked(connection, source, part, state, totals)
                file.write(write(rows))
                _to_disk(file)
                counts = totals.statuses, totals.codes, totals.gravity, totals.columns.unread
                state.keep(part.end, totals.rows, file.tell(), counts)
                progress(part.done, totals.rows)
            _to_disk(file)
            state.finish(out)
    except sqlite3.Error as error:
        raise OSError(f"the state of the run beside {out} cannot be written ({error})") from None
    return totals


def _totals_of(state: State, columns: Columns) -> Totals:
    """Return the totals so far; columns of earlier parts that were not read are told again."""
    statuses, codes, gravity, unread = state.counts
    columns.unread.update(unread)
    return Totals(state.rows, Counter(statuses), Counter(codes), dict(gravity), columns, state.begun_anew)


def _asked(connection: Connection, source: Source, part: Part, state: State, totals: Totals) -> list[Row]:
    """Return the rows of a part, with repeats marked, and count them."""
    found, columns = ask(connection, part.body, source.media_type, totals.rows, part.rows, **part.query)
    rows = [state.repeats.mark(row) for row in found]
    totals.add(rows)
    totals.columns.add(columns)
    return rows


def _to_disk(file: IO[bytes]) -> None:
    file.flush()
    os.fsync(file.fileno())


def _run_id(source: Source) -> str:
    """Return a digest of the catalogue and of how it is read: a run goes on with the same ones only."""
    with source.path.open("rb") as file:
        digest = hashlib.file_digest(file, "sha256")
    digest.update(f"{_STATE} {source!r}".encode())
    return digest.hexdigest()


Writer = Callable[[Iterable[Row]], bytes]


def _form(out: Path, catalogue: Path) -> Callable[[str], tuple[bytes, Writer]]:
    """Return what makes of a delimiter how the file begins, and what writes rows."""
    if out.resolve() == catalogue.resolve():
        raise ValueError(f"{out} is the catalogue itself: name another file for the findings")
    form = out.suffix.lower()
    if form in (".ndjson", ".jsonl"):
        return lambda _: (b"", _as_ndjson)
    if form == ".csv":
        return lambda delimiter: (
            _lines([COLUMNS], delimiter),
            lambda rows: _lines(map(cells_of, rows), delimiter),
        )
    raise ValueError(f"{out}: findings are written to a file that ends in .csv or .ndjson")


def _as_ndjson(rows: Iterable[Row]) -> bytes:
    lines = (json.dumps(row, ensure_ascii=False, separators=(",", ":")) for row in rows)
    return b"".join(line.encode("utf-8", "replace") + b"\n" for line in lines)


def _lines(rows: Iterable[Iterable[object]], delimiter: str) -> bytes:
    text = io.StringIO(newline="")
    csv.writer(text, delimiter=delimiter, lineterminator="\r\n").writerows(rows)
    return text.getvalue().encode("utf-8", "replace")
