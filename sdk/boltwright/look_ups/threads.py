"""GET /v1/threads: which threads the standards list, page by page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..decoding import Result
from ..transport import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedThread:
    """A thread of a standard; diameters in `unit`."""

    designation: str
    system: str
    nominal_diameter: float
    pitch: float
    threads_per_inch: float | None = None
    unit: str
    series: str
    choice: int | None = None
    selected_for_fasteners: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Threads(Result):
    """One page of threads. `total` counts all that match; `next` is the cursor of the next page, None on the last."""

    threads: tuple[ListedThread, ...]
    total: int
    next: str | None = None


def threads(
    connection: Connection,
    *,
    system: str | None = None,
    series: str | None = None,
    choice: int | None = None,
    min_diameter: float | str | None = None,
    max_diameter: float | str | None = None,
    unit: str | None = None,
    limit: int | None = None,
    cursor: str | None = None,
) -> Threads:
    """Return one page of the threads that match.

    Args:
        system: ISO metric or Unified inch.
        series: coarse, fine, UNC, UNF ...
        choice: preference of the standard, 1 the first.
        min_diameter, max_diameter: nominal diameters, both ends included, in `unit`.
        unit: mm or in; the default is that of the system, else mm.
        limit: threads a page, 50 if not given.
        cursor: `next` of the page before, with the same filters.

    Raises:
        NotFoundError: no such system or series. Others: see `boltwright.errors`.
    """
    return connection.get(
        Threads,
        "/v1/threads",
        system=system,
        series=series,
        choice=choice,
        min_diameter=min_diameter,
        max_diameter=max_diameter,
        unit=unit,
        limit=limit,
        cursor=cursor,
    )


def threads_iter(
    connection: Connection,
    *,
    system: str | None = None,
    series: str | None = None,
    choice: int | None = None,
    min_diameter: float | str | None = None,
    max_diameter: float | str | None = None,
    unit: str | None = None,
    limit: int | None = None,
) -> Iterator[ListedThread]:
    """Yield all threads that match, a page at a time as they are taken; the filters are those of `threads`.

    Raises:
        NotFoundError: no such system or series. Others: see `boltwright.errors`.
    """
    cursor: str | None = None
    while True:
        page = threads(
            connection,
            system=system,
            series=series,
            choice=choice,
            min_diameter=min_diameter,
            max_diameter=max_diameter,
            unit=unit,
            limit=limit,
            cursor=cursor,
        )
        yield from page.threads
        cursor = page.next
        if cursor is None:
            return
