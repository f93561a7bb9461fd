"""One batch of a catalogue, validated wherever it lies; repeats are found over all batches in a second step.

    results = [validate_batch(rows, first_row) for first_row, rows in batches]   # anywhere, in any order
    with Repeats() as repeats:
        found = with_repeats(chain.from_iterable(results), repeats)              # once, in the order of the rows

The two steps together return what one `Validator` returns for the whole catalogue, row by row.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from .findings import status_of
from .repeats import Repeats
from .validation import Result, Validator

#: A row, or the sentence that says why it could not be split into members.
Row = Mapping[str, Any] | str


def validate_batch(rows: Iterable[Row], first_row: int = 0) -> list[Result]:
    """Return the results of rows that follow one another in a catalogue; the first of them is row `first_row`."""
    with Validator(first_row, repeats=False) as validator:
        return [validator.unreadable(row) if isinstance(row, str) else validator.validate(row) for row in rows]


def validate_cells(titles: Sequence[str], rows: Iterable[Sequence[str]], first_row: int = 0) -> list[Result]:
    """Return the results of CSV rows below a header; a row with more or fewer cells gets a finding."""
    with Validator(first_row, repeats=False) as validator:
        layout = validator.layout(tuple(titles))
        return [validator.validate_cells(row, layout) for row in rows]


def with_repeats(results: Iterable[Result], repeats: Repeats) -> Iterator[Result]:
    """Yield the results of all batches, in the order of the rows, with the findings of repeats."""
    for one in results:
        found = repeats.finding(one.part_number, one.requirement or "", one.row)
        if found is not None:
            one.findings.append(found)
            one.status = status_of(one.findings)
        one.requirement = None
        yield one
