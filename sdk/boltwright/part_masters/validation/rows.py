"""Rows of a program through the service, as a stream both ways."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Generator, Iterable, Iterator, Mapping
from contextlib import closing
from itertools import islice
from typing import Any

from ...decoding import decode
from ...transport import Connection
from ..row import PartMaster
from .columns import Columns
from .parts import NDJSON, ndjson
from .passed_on import Answer, Form, answer_of
from .repeats import Repeats

PATH = "/v1/part-masters/validation"


class ValidatedRows(Iterator[PartMaster]):
    """The results of rows, while they come; `columns` says what has been read of them so far, and what has not."""

    def __init__(self, connection: Connection, rows: Iterable[Mapping[str, Any]], batch: int) -> None:
        """Ask for nothing yet."""
        if batch < 1:
            raise ValueError(f"batch is 1 or more, not {batch}")
        self.columns = Columns()
        self._results = self._ask(connection, iter(rows), batch)

    def __next__(self) -> PartMaster:
        """Return the next result."""
        return next(self._results)

    def _ask(
        self, connection: Connection, rows: Iterator[Mapping[str, Any]], batch: int
    ) -> Generator[PartMaster, None, None]:
        """Yield results. What was seen lies in a temporary file that SQLite removes."""
        first_row = 0
        with closing(sqlite3.connect("")) as database:
            repeats = Repeats(database)
            while part := list(islice(rows, batch)):
                answer = ask(connection, ndjson(map(dict, part)), NDJSON, first_row, len(part))
                self.columns.add(answer.columns)
                repeats.mark(answer, first_row)
                first_row += len(part)
                for row in answer.rows():
                    yield decode(PartMaster, json.dumps(row).encode())


def ask(
    connection: Connection,
    body: bytes,
    media_type: str,
    first_row: int,
    count: int,
    form: Form | None = None,
    **query: str,
) -> Answer:
    """Return the answer to one part of `count` rows, to be written in a form.

    Raises:
        Error: see `boltwright.errors`.
    """
    found, headers = connection.post_rows(PATH, body, media_type, first_row=first_row, **query)
    return answer_of(found, headers, media_type, first_row, count, form)
