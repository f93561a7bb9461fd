"""One batch of a catalogue, validated wherever it lies; repeats are found over all batches in a second step.

    results = [validate_batch(rows, first_row) for first_row, rows in batches]   # anywhere, in any order
    with Repeats() as repeats:
        found = with_repeats(chain.from_iterable(results), repeats)              # once, in the order of the rows

The two steps together return what one `Validator` returns for the whole catalogue, row by row.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from ..repeats.repeats import Repeats
from .validation import Result, Row, Validator, add_repeats

#: Results that are looked through at once.
_BLOCK = 500


def validate_batch(rows: Iterable[Row], first_row: int = 0) -> list[Result]:
    """Return the results of rows that follow one another in a catalogue; the first of them is row `first_row`."""
    with Validator(first_row, repeats=False) as validator:
        return validator.validate_rows(rows)


def validate_cells(titles: Sequence[str], rows: Iterable[Sequence[str]], first_row: int = 0) -> list[Result]:
    """Return the results of CSV rows below a header; a row with more or fewer cells gets a finding."""
    with Validator(first_row, repeats=False) as validator:
        layout = validator.layout(tuple(titles))
        return validator.validate_block(rows, layout)


def with_repeats(results: Iterable[Result], repeats: Repeats) -> Iterator[Result]:
    """Yield the results of all batches, in the order of the rows, with the findings of repeats."""
    rows = iter(results)
    while block := list(islice(rows, _BLOCK)):
        add_repeats(block, repeats)
        yield from block
