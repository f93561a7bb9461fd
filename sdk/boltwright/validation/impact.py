"""What a change does to a catalogue file: one line out for each of its rows, in the file's own form."""

from __future__ import annotations

import json
import os
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from ..part_masters_impact import PATH
from ..transport import Connection
from .answers import cells_by_title
from .parts import CSV, NDJSON, Source

_ENDINGS = {CSV: (".csv",), NDJSON: (".ndjson", ".jsonl")}


@dataclass(slots=True)
class ImpactTotals:
    """Rows by effect."""

    rows: int = 0
    effects: Counter[str] = field(default_factory=Counter)


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
        ValueError: `out` has another form, or is the catalogue itself. Error: see `boltwright.errors`.
    """
    endings = _ENDINGS[source.media_type]
    if out.suffix.lower() not in endings or out.resolve() == source.path.resolve():
        raise ValueError(f"{out}: the result of {source.path.name} is another file that ends in {endings[0]}")
    totals = ImpactTotals()
    draft = out.with_name(f"{out.name}.part")
    progress(0, 0)
    try:
        with draft.open("wb") as file:
            for part in source.parts(0):
                query = {"from": before, "to": after, "first_row": totals.rows, **part.query}
                answer = connection.post_text(PATH, part.body, source.media_type, **query)
                head, lines, effects = _read(answer, source.media_type)
                file.write(lines if file.tell() else head + lines)
                totals.rows += len(effects)
                totals.effects.update(effects)
                progress(part.done, totals.rows)
        os.replace(draft, out)
    finally:
        draft.unlink(missing_ok=True)
    return totals


def _read(answer: bytes, media_type: str) -> tuple[bytes, bytes, list[str]]:
    """Return the header of an answer, its lines without header and summary, and the effect of each row."""
    if media_type == CSV:
        header, end, lines = answer.partition(b"\r\n")
        return header + end, lines, [row["effect"] for row in cells_by_title(answer)]
    found = answer.splitlines(keepends=True)[:-1]
    return b"", b"".join(found), [json.loads(line)["effect"] for line in found]
