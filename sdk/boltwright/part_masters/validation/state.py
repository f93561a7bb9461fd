"""The state of a run beside its file of findings: how far it is, what it has counted, which rows it has seen."""

from __future__ import annotations

import json
import os
import sqlite3
from collections.abc import Mapping
from contextlib import ExitStack, closing
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from .place import draft_of
from .repeats import Repeats

#: Seconds to wait for another run to let go of the file.
_PATIENCE = 0.5
Counts = tuple[Mapping[str, Any], ...]
_TABLES = ("run", "part_numbers", "requirements")
#: Another run has the file, or the disk does not let it be written: no fault of what it holds.
_NOT_OURS = (
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_CANTOPEN,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_PERM,
    sqlite3.SQLITE_READONLY,
)
_TABLE = """
create table if not exists run (
    id text not null, position integer not null, rows integer not null, size integer not null, counts text not null)
"""


class State:
    """One SQLite file; a part is known wholly or not at all, whenever the run stops.

    `position` counts in the source, `rows` the rows done, `size` the bytes of the draft; `counts` are those of the
    run's totals. `begun_anew` says why a state that lay there was not gone on with, None where there was none.
    """

    def __init__(self, out: Path, run_id: str, restart: bool) -> None:
        """Open the state of a run, or begin one; no other run may have it open.

        A state that cannot be read, of another catalogue or of other options is of no use any more: the run begins
        anew.

        Raises:
            ValueError: the state file is in use, or none can be written.
        """
        self.path, self.draft = out.with_name(f"{out.name}.state"), draft_of(out)
        self.position = self.rows = self.size = 0
        self.counts: Counts = ({}, {}, {}, {})
        self.begun_anew: str | None = None
        self._held = ExitStack()
        try:
            try:
                self._open(run_id, restart or not self.draft.exists())
            except (sqlite3.DatabaseError, ValueError, TypeError) as error:
                self._held.close()
                if isinstance(error, sqlite3.OperationalError) and error.sqlite_errorcode in _NOT_OURS:
                    raise
                self.begun_anew = f"{self.path} was no state of a run: begun anew"
                self.discard()
                self._open(run_id, True)
        except sqlite3.Error as error:
            self._held.close()
            if error.sqlite_errorcode == sqlite3.SQLITE_BUSY:
                raise ValueError(f"{out} is being written by another run ({error})") from None
            raise ValueError(f"{self.path} cannot be written ({error})") from None
        except BaseException:
            self._held.close()
            raise

    def _open(self, run_id: str, anew: bool) -> None:
        self._database = self._held.enter_context(closing(sqlite3.connect(self.path, timeout=_PATIENCE)))
        self._lock(anew)
        self.repeats = Repeats(self._database)
        self._read(run_id)

    def _lock(self, anew: bool) -> None:
        """Keep everyone else out until the file is closed; forget what it holds where a run begins anew."""
        self._database.execute("pragma locking_mode = exclusive")
        self._database.execute("begin exclusive")
        for table in _TABLES if anew else ():
            self._database.execute(f"drop table if exists {table}")
        self._database.execute(_TABLE)
        self._database.commit()

    def _read(self, run_id: str) -> None:
        found = self._database.execute("select id, position, rows, size, counts from run").fetchone()
        if found is not None and (found[0] != run_id or found[3] > self.draft.stat().st_size):
            self.begun_anew = f"{self.path} was of another catalogue, other options or a changed draft: begun anew"
            for table in _TABLES:
                self._database.execute(f"delete from {table}")
            found = None
        if found is None:
            self._database.execute("insert into run values (?, 0, 0, 0, '[{}, {}, {}, {}]')", (run_id,))
            self._database.commit()
            return
        _, *numbers, written = found
        counts = tuple(map(dict, json.loads(written)))
        if len(counts) != len(self.counts) or not all(isinstance(number, int) for number in numbers):
            raise ValueError("the state holds something else")
        self.position, self.rows, self.size = numbers
        self.counts = counts

    def keep(self, position: int, rows: int, size: int, counts: Counts) -> None:
        """Say that a part is done, with the rows that it has seen."""
        written = json.dumps([dict(one) for one in counts])
        self._database.execute(
            "update run set position = ?, rows = ?, size = ?, counts = ?", (position, rows, size, written)
        )
        self._database.commit()
        self.rows = rows

    def finish(self, out: Path) -> None:
        """The run is done: the draft takes its place, and nothing is left to go on with."""
        os.replace(self.draft, out)
        self._held.close()
        self.discard()

    def discard(self) -> None:
        """Leave nothing."""
        for suffix in ("", "-journal"):
            self.path.with_name(self.path.name + suffix).unlink(missing_ok=True)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the file; it stays where the run did not finish, unless no row was kept."""
        self._held.close()
        if kind is not None and not self.rows:
            self.discard()
            self.draft.unlink(missing_ok=True)
