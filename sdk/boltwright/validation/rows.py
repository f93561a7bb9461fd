"""Rows of a program through the service, as a stream both ways."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Mapping
from contextlib import closing
from itertools import islice
from typing import Any

from ..decoding import decode
from ..part_masters import PartMaster
from ..transport import Connection
from .answers import Row, rows_of
from .parts import NDJSON, ndjson
from .repeats import Repeats

PATH = "/v1/part-masters/validation"


def validated(connection: Connection, rows: Iterable[Mapping[str, Any]], batch: int) -> Iterator[PartMaster]:
    """Yield the result of every row; see `part_masters_validation_iter`."""
    for row in validated_rows(connection, rows, batch):
        yield decode(PartMaster, json.dumps(row).encode())


def validated_rows(connection: Connection, rows: Iterable[Mapping[str, Any]], batch: int) -> Iterator[Row]:
    """Yield the result of every row as a mapping. What was seen lies in a temporary file that SQLite removes."""
    if batch < 1:
        raise ValueError(f"batch is 1 or more, not {batch}")
    each = iter(rows)
    first_row = 0
    with closing(sqlite3.connect("")) as database:
        repeats = Repeats(database)
        while part := list(islice(each, batch)):
            found = ask(connection, ndjson(map(dict, part)), NDJSON, first_row)
            first_row += len(found)
            yield from map(repeats.mark, found)


def ask(connection: Connection, body: bytes, media_type: str, first_row: int, **query: str) -> list[Row]:
    """Return the rows of one part.

    Raises:
        Error: see `boltwright.errors`.
    """
    answer = connection.post_text(PATH, body, media_type, first_row=first_row, **query)
    return rows_of(answer, media_type, first_row)
