"""What a change does to a catalogue file: one line out for each of its rows, in the file's own form."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple

from ...decoding import check_numbers
from ...transport import Connection
from ..part_masters_impact import PATH
from .answers import BROKEN, ndjson_rows, table_of, unreadable
from .columns import Columns, columns_of_headers, columns_of_summary, look
from .in_flight import in_order
from .parts import CSV, NDJSON, Part, Source
from .place import check_place, draft_of

_ENDINGS = {CSV: (".csv",), NDJSON: (".ndjson", ".jsonl")}


@dataclass(slots=True)
class ImpactTotals:
    """Rows by effect, and which columns were read."""

    rows: int = 0
    effects: Counter[str] = field(default_factory=Counter)
    columns: Columns = field(default_factory=Columns)


def impact_file(
    connection: Connection,
    source: Source,
    before: str,
    after: str,
    out: Path,
    progress: Callable[[int, int], None] = lambda done, rows: None,
    workers: int | None = None,
) -> ImpactTotals:
    """Hold a catalogue file against a change; `out` is replaced when all of it is there.

    Args:
        before, after: as `part_masters_impact` takes them.
        out: .csv for a CSV catalogue, .ndjson for any other.
        progress: called at the start and behind each part with what of the source is done, and the rows so far.
        workers: connections that ask at the same time, see `in_flight.in_order`; None: one a core.

    Raises:
        ValueError: `out` has another form, lies in no folder, or is the catalogue itself. Error: see
            `boltwright.errors`.
    """
    endings = _ENDINGS[source.media_type]
    if out.suffix.lower() not in endings or out.resolve() == source.path.resolve():
        raise ValueError(f"{out}: the result of {source.path.name} is another file that ends in {endings[0]}")
    check_place(out)
    change = {"from": before, "to": after}
    totals = ImpactTotals(columns=look(connection, PATH, source, **change))
    draft = draft_of(out)
    progress(0, 0)

    def asked(lane: Connection, part: Part, first_row: int) -> _Answer:
        query = {**change, **part.query}
        answer, headers = lane.post_rows(PATH, part.body, source.media_type, first_row=first_row, **query)
        return _checked(answer, headers, source.media_type, first_row, part.rows)

    try:
        with draft.open("wb") as file, closing(in_order(connection, source.parts(0), 0, asked, workers)) as answers:
            for part, answer in answers:
                file.write(answer.lines if file.tell() else answer.head + answer.lines)
                totals.rows += part.rows
                totals.effects.update(answer.effects)
                totals.columns.add(answer.columns)
                progress(part.done, totals.rows)
        os.replace(draft, out)
    finally:
        draft.unlink(missing_ok=True)
    return totals


class _Answer(NamedTuple):
    """The answer to a part: its header, its lines without header and summary, and what is counted."""

    head: bytes
    lines: bytes
    effects: Sequence[str]
    columns: Columns


def _checked(body: bytes, headers: Mapping[str, str], form: str, first_row: int, count: int) -> _Answer:
    try:
        if form == CSV:
            titles, rows, _, _ = table_of(body)
            row, effect = titles.index("row"), titles.index("effect")
            numbers, effects = [int(cells[row]) for cells in rows], [cells[effect] for cells in rows]
        else:
            objects, summary = ndjson_rows(body)
            numbers, effects = [int(one["row"]) for one in objects], [one["effect"] for one in objects]
        # What cannot be counted is no effect.
        Counter(effects)
    except BROKEN as error:
        raise unreadable(error) from None
    check_numbers(numbers, first_row, count)
    if form == CSV:
        head, end, lines = body.partition(b"\r\n")
        return _Answer(head + end, lines, effects, columns_of_headers(headers))
    return _Answer(b"", b"".join(body.splitlines(keepends=True)[:-1]), effects, columns_of_summary(summary))
