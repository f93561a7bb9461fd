"""A catalogue file in, a file of findings out; a run that was interrupted goes on where it stopped.

While the run lasts the findings are a draft beside their place, and beside it lies a state file. Now and then, always
behind a part, the draft is put on the disk, then the state says so: after an interruption whatever the state does not
know is cut off, so that no row is lost or doubled. The draft takes its place when it is whole.
"""

from __future__ import annotations

import hashlib
import os
import sqlite3
import time
from collections import Counter
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import IO, Self

from ...transport import Connection
from .answers import SEVERITIES
from .columns import Columns, look
from .in_flight import in_order
from .parts import CSV, NDJSON, Part, Source
from .passed_on import Answer, Form
from .place import check_place
from .rows import PATH, ask
from .state import State

Progress = Callable[[int, int], None]
#: What a state file holds; raised where an older one cannot be gone on with.
_STATE = 2
#: Seconds of work, about, that a run which is killed does again.
KEPT_EVERY = 2.0


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

    def add(self, answer: Answer) -> None:
        """Count the rows of an answer."""
        self.rows += len(answer.statuses)
        self.statuses.update(answer.statuses)
        self.columns.add(answer.columns)
        for at in sorted(answer.findings):
            found = answer.findings[at]
            self.codes.update({one["code"] for one in found})
            self.gravity.update((one["code"], SEVERITIES.index(one["severity"])) for one in found)

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
    workers: int | None = None,
) -> Totals:
    """Validate a catalogue file and write one line for each of its rows: CSV, or NDJSON where `out` ends so.

    A file that is there is replaced when the findings are whole; until then they lie beside it, as `out` with `.part`.

    Args:
        restart: begin anew even if an interrupted run could go on.
        progress: called at the start and behind each part with what of the source is done, and the rows so far.
        workers: connections that ask at the same time, see `in_flight.in_order`; None: one a core.

    Raises:
        ValueError: `out` is the catalogue itself, of no known form, in no folder, or being written by another run.
        Error: the service gives no answer; call again to go on.
    """
    check_place(out)
    media_type = _media_type(out, source.path)
    columns = look(connection, PATH, source)
    form = Form(media_type, source.delimiter)
    try:
        with State(out, _run_id(source), restart) as state, state.draft.open("r+b" if state.rows else "w+b") as file:
            totals = _totals_of(state, columns)
            with _Draft(file, state, totals, form) as draft:
                progress(0, totals.rows)

                def asked(lane: Connection, part: Part, first_row: int) -> Answer:
                    return ask(lane, part.body, source.media_type, first_row, part.rows, form, **part.query)

                with closing(
                    in_order(connection, source.parts(state.position), totals.rows, asked, workers)
                ) as answers:
                    for part, answer in answers:
                        draft.add(part, answer)
                        progress(part.done, totals.rows)
            state.finish(out)
    except sqlite3.Error as error:
        raise OSError(f"the state of the run beside {out} cannot be written ({error})") from None
    return totals


class _Draft:
    """The findings so far. Now and then, and at the end, they are put on the disk, and then the state says so."""

    def __init__(self, file: IO[bytes], state: State, totals: Totals, form: Form) -> None:
        """Cut off what the state does not know."""
        self._file, self._state, self._totals, self._form = file, state, totals, form
        file.truncate(state.size)
        self._size = state.size
        self._unwritten = [] if state.size else [form.head]
        #: Where the run would go on; None while a part is half done.
        self._end: int | None = state.position
        self._kept = time.monotonic()

    def add(self, part: Part, answer: Answer) -> None:
        """Add a part, with repeats marked."""
        self._end = None
        self._state.repeats.mark(answer, self._totals.rows)
        self._unwritten.append(answer.written(self._form))
        self._totals.add(answer)
        self._end = part.end
        if time.monotonic() - self._kept >= KEPT_EVERY:
            self._keep()

    def _keep(self) -> None:
        if self._end is None:
            return
        # Once more from the same place, if a Ctrl-C falls into it.
        self._file.seek(self._size)
        self._file.write(b"".join(self._unwritten))
        self._file.flush()
        os.fsync(self._file.fileno())
        totals, size = self._totals, self._file.tell()
        counts = totals.statuses, totals.codes, totals.gravity, totals.columns.unread
        self._state.keep(self._end, totals.rows, size, counts)
        self._size, self._unwritten = size, []
        self._kept = time.monotonic()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *error: object) -> None:
        """Keep what is done, also where the service went away; what is half done is asked for again."""
        self._keep()


def _totals_of(state: State, columns: Columns) -> Totals:
    """Return the totals so far; columns of earlier parts that were not read are told again."""
    statuses, codes, gravity, unread = state.counts
    columns.unread.update(unread)
    return Totals(state.rows, Counter(statuses), Counter(codes), dict(gravity), columns, state.begun_anew)


def _run_id(source: Source) -> str:
    """Return a digest of the catalogue and of how it is read: a run goes on with the same ones only."""
    with source.path.open("rb") as file:
        digest = hashlib.file_digest(file, "sha256")
    digest.update(f"{_STATE} {source!r}".encode())
    return digest.hexdigest()


def _media_type(out: Path, catalogue: Path) -> str:
    """Return the form of the findings, by the suffix of their file."""
    if out.resolve() == catalogue.resolve():
        raise ValueError(f"{out} is the catalogue itself: name another file for the findings")
    form = out.suffix.lower()
    if form in (".ndjson", ".jsonl"):
        return NDJSON
    if form == ".csv":
        return CSV
    raise ValueError(f"{out}: findings are written to a file that ends in .csv or .ndjson")
