"""What a change does to a catalogue file: one line out for each of its rows, in the file's own form."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from ...decoding import check_numbers
from ...transport import Connection
from ..part_masters_impact import PATH
from .answers import BROKEN, cells_by_title, ndjson_rows, unreadable
from .columns import Columns, columns_of_headers, columns_of_summary, look
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
) -> ImpactTotals:
    """Hold a catalogue file against a change; `out` is replaced when all of it is there.

    Args:
        before, after: as `part_masters_impact` takes them.
        out: .csv for a CSV catalogue, .ndjson for any other.
        progress: called at the start and behind each part with what of the source is done, and the rows so far.

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
    try:
        with draft.open("wb") as file:
            for part in source.parts(0):
                head, lines = _asked(connection, source, part, change, totals)
                file.write(lines if file.tell() else head + lines)
                progress(part.done, totals.rows)
        os.replace(draft, out)
    finally:
        draft.unlink(missing_ok=True)
    return totals


def _asked(
    connection: Connection, source: Source, part: Part, change: Mapping[str, str], totals: ImpactTotals
) -> tuple[bytes, bytes]:
    """Return the header of the answer to a part and its lines without header and summary; count its rows."""
    form = source.media_type
    answer, headers = connection.post_rows(PATH, part.body, form, **change, first_row=totals.rows, **part.query)
    try:
        rows, summary = (list(cells_by_title(answer)), {}) if form == CSV else ndjson_rows(answer)
        effects = [row["effect"] for row in rows]
        numbers = [int(row["row"]) for row in rows]
        totals.effects.update(effects)
    except BROKEN as error:
        raise unreadable(error) from None
    check_numbers(numbers, totals.rows, part.rows)
    totals.rows += len(rows)
    if form == CSV:
        totals.columns.add(columns_of_headers(headers))
        head, end, lines = answer.partition(b"\r\n")
        return head + end, lines
    totals.columns.add(columns_of_summary(summary))
    return b"", b"".join(answer.splitlines(keepends=True)[:-1])
