"""How far a long run is: a bar on a terminal, a line now and then elsewhere, always on the error output.

The bar is that of tqdm (extra `progress`); without it a terminal gets one line that is written over.
"""

from __future__ import annotations

import sys
import time
from types import TracebackType
from typing import Any, Self

#: Seconds between two lines where there is no terminal.
_NOW_AND_THEN = 10.0


class Progress:
    """Told what is done of `total` (in `unit`; None: not known) and how many rows that are."""

    def __init__(self, total: int | None, unit: str = "B", quiet: bool = False) -> None:
        """Show nothing yet."""
        self._total = total
        self._quiet = quiet
        self._terminal = sys.stderr.isatty()
        self._bar = _bar(total, unit) if self._terminal and not quiet else None
        self._started = self._told = time.monotonic()
        self._first: int | None = None
        self._written = False

    def __call__(self, done: int, rows: int) -> None:
        """Show it; the first call says how many rows an interrupted run had done."""
        if self._first is None:
            self._first = rows
            if rows and not self._quiet:
                self._line(f"going on behind row {rows - 1}")
        elif self._bar is not None:
            self._bar.set_postfix_str(f"{rows} rows", refresh=False)
            self._bar.update(done - self._bar.n)
        elif not self._quiet:
            self._plain(done, rows)

    def _plain(self, done: int, rows: int) -> None:
        now = time.monotonic()
        if not self._terminal and now - self._told < _NOW_AND_THEN:
            return
        self._told = now
        share = f"{min(100, 100 * done // self._total)} %, " if self._total else ""
        speed = (rows - (self._first or 0)) / max(1e-9, now - self._started)
        self._line(f"{share}{rows} rows, {speed:.0f} rows/s", again=self._terminal)

    def _line(self, text: str, again: bool = False) -> None:
        print(f"\r{text:<60}" if again else text, end="" if again else "\n", file=sys.stderr, flush=True)
        self._written = again

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Leave the terminal on a line of its own."""
        if self._bar is not None:
            self._bar.close()
        if self._written:
            print(file=sys.stderr)


def _bar(total: int | None, unit: str) -> Any:
    try:
        from tqdm import tqdm
    except ImportError:
        return None
    return tqdm(total=total, unit=unit, unit_scale=True, file=sys.stderr, leave=False, dynamic_ncols=True)
