"""A catalogue file in, a file of findings out; a run that was interrupted goes on where it stopped.

Beside the findings lies a state file while the run lasts. Behind each part the findings are on the disk first, then the
state says so: after an interruption whatever the state does not know is cut off, so that no row is lost or doubled.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import os
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO

from ..transport import Connection
from .answers import COLUMNS, Row, cells_of
from .parts import Part, Source
from .rows import ask
from .state import State

Progress = Callable[[int, int], None]
#: The gravest first.
SEVERITIES = ("error", "warning", "notice")


@dataclass(slots=True)
class Totals:
    """What a run came to so far: rows by status and by the code of a finding; `gravity` of a code is its index in
    `SEVERITIES`."""

    rows: int = 0
    statuses: Counter[str] = field(default_factory=Counter)
    codes: Counter[str] = field(default_factory=Counter)
    gravity: dict[str, int] = field(default_factory=dict)

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

    Args:
        restart: begin anew even if an interrupted run could go on.
        progress: called at the start and behind each part with what of the source is done, and the rows so far.

    Raises:
        ValueError: `out` is the catalogue itself, of no known form, or a state file of another run lies beside it.
        Error: the service gives no answer; call again to go on.
    """
    head, write = _form(out, source.path)
    with State(out, _run_id(source), restart) as state, out.open("r+b" if state.rows else "w+b") as file:
        statuses, codes, gravity = state.counts
        totals = Totals(state.rows, Counter(statuses), Counter(codes), dict(gravity))
        file.seek(state.size)
        file.truncate()
        if state.size == 0:
            file.write(head)
        progress(0, totals.rows)
        for part in source.parts(state.position):
            rows = _asked(connection, source, part, state, totals)
            file.write(write(rows))
            _to_disk(file)
            state.keep(part.end, totals.rows, file.tell(), (totals.statuses, totals.codes, totals.gravity))
            progress(part.done, totals.rows)
        state.finish()
    return totals


def _asked(connection: Connection, source: Source, part: Part, state: State, totals: Totals) -> list[Row]:
    """Return the rows of a part, with repeats marked, and count them."""
    found = ask(connection, part.body, source.media_type, totals.rows, **part.query)
    rows = [state.repeats.mark(row) for row in found]
    totals.add(rows)
    return rows


def _to_disk(file: IO[bytes]) -> None:
    file.flush()
    os.fsync(file.fileno())


def _run_id(source: Source) -> str:
    """Return a digest of the catalogue and of how it is read: a run goes on with the same ones only."""
    with source.path.open("rb") as file:
        digest = hashlib.file_digest(file, "sha256")
    digest.update(repr(source).encode())
    return digest.hexdigest()


def _form(out: Path, catalogue: Path) -> tuple[bytes, Callable[[Iterable[Row]], bytes]]:
    """Return how the file begins, and what writes rows."""
    if out.resolve() == catalogue.resolve():
        raise ValueError(f"{out} is the catalogue itself: name another file for the findings")
    form = out.suffix.lower()
    if form in (".ndjson", ".jsonl"):
        return b"", _as_ndjson
    if form == ".csv":
        return _lines([COLUMNS]), _as_csv
    raise ValueError(f"{out}: findings are written to a file that ends in .csv or .ndjson")


def _as_ndjson(rows: Iterable[Row]) -> bytes:
    lines = (json.dumps(row, ensure_ascii=False, separators=(",", ":")) for row in rows)
    return b"".join(line.encode("utf-8", "replace") + b"\n" for line in lines)


def _as_csv(rows: Iterable[Row]) -> bytes:
    return _lines(map(cells_of, rows))


def _lines(rows: Iterable[Iterable[object]]) -> bytes:
    text = io.StringIO(newline="")
    csv.writer(text, lineterminator="\r\n").writerows(rows)
    return text.getvalue().encode("utf-8", "replace")
