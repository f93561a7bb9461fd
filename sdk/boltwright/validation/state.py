"""The state of a run beside its file of findings: how far it is, what it has counted, which rows it has seen."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping
from pathlib import Path
from types import TracebackType
from typing import Self

from .repeats import Repeats

#: Seconds to wait for another run to let go of the file.
_PATIENCE = 0.5
Counts = tuple[Mapping[str, int], ...]
_TABLE = """
create table if not exists run (
    id text not null, position integer not null, rows integer not null, size integer not null, counts text not null)
"""


class State:
    """One SQLite file; a part is known wholly or not at all, whenever the run stops.

    `position` counts in the source, `rows` the rows done, `size` the bytes of the findings; `counts` are those of the
    run's totals.
    """

    def __init__(self, out: Path, run_id: str, restart: bool) -> None:
        """Open the state of a run, or begin one; no other run may have it open.

        Raises:
            ValueError: the state file is of another run, is in use, or is none that can be read.
        """
        self.path = out.with_name(f"{out.name}.state")
        self.position = self.rows = self.size = 0
        self.counts: Counts = ({}, {}, {})
        self._database = sqlite3.connect(self.path, timeout=_PATIENCE)
        try:
            self._lock(restart or not out.exists())
            self.repeats = Repeats(self._database)
            self._read(run_id, out)
        except BaseException as error:
            self._database.close()
            if isinstance(error, sqlite3.OperationalError):
                raise ValueError(f"{out} is being written by another run ({error})") from None
            if isinstance(error, sqlite3.DatabaseError):
                raise ValueError(f"{self.path} is no state of a run: remove it and begin anew") from None
            raise

    def _lock(self, anew: bool) -> None:
        """Keep everyone else out until the file is closed; forget what it holds where a run begins anew."""
        self._database.execute("pragma locking_mode = exclusive")
        self._database.execute("begin exclusive")
        for table in ("run", "part_numbers", "requirements") if anew else ():
            self._database.execute(f"drop table if exists {table}")
        self._database.execute(_TABLE)
        self._database.commit()

    def _read(self, run_id: str, out: Path) -> None:
        found = self._database.execute("select id, position, rows, size, counts from run").fetchone()
        if found is None:
            self._database.execute("insert into run values (?, 0, 0, 0, '[{}, {}, {}]')", (run_id,))
            self._database.commit()
            return
        known, self.position, self.rows, self.size, counts = found
        self.counts = tuple(json.loads(counts))
        if known != run_id or self.size > out.stat().st_size:
            raise ValueError(
                f"{self.path} belongs to another catalogue, other options or a changed {out.name}: an interrupted run "
                "cannot go on; begin anew with --restart"
            )

    def keep(self, position: int, rows: int, size: int, counts: Counts) -> None:
        """Say that a part is done, with the rows that it has seen."""
        written = json.dumps([dict(one) for one in counts])
        self._database.execute(
            "update run set position = ?, rows = ?, size = ?, counts = ?", (position, rows, size, written)
        )
        self._database.commit()

    def finish(self) -> None:
        """The run is done: nothing is left to go on with."""
        self._database.close()
        for suffix in ("", "-journal"):
            self.path.with_name(self.path.name + suffix).unlink(missing_ok=True)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close the file; it stays where the run did not finish."""
        self._database.close()
