"""How much of the machine a request may take: each limit has a name, a default and, where it is met, its own problem.

`python -m boltwright_server --limit rows=500000`, or BOLTWRIGHT_LIMITS="rows=500000,json_bytes=1000000" where another
server runs the application.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields, replace

MIB = 1024 * 1024
#: Environment variable that holds limits, separated by commas.
VARIABLE = "BOLTWRIGHT_LIMITS"


class BadLimit(ValueError):
    """A limit that is not known, or no whole number above 0."""


@dataclass(frozen=True, slots=True)
class Limits:
    """Every limit of a running service; bytes, rows, seconds and connections are whole numbers above 0."""

    #: Bytes of a body as it is sent, whatever its kind.
    body_bytes: int = 1024 * MIB
    #: Bytes of a body that is read as a whole (JSON, Arrow), unzipped; a lot of 100 000 pieces with 20 columns fits.
    json_bytes: int = 64 * MIB
    #: Bytes of a body that is read line by line (NDJSON, CSV), unzipped.
    inflated_bytes: int = 4096 * MIB
    #: Bytes that one byte of gzip may become, beyond the first 64 KiB; catalogues become 5 to 30.
    inflation: int = 100
    #: Rows of part masters, or pieces of a lot, in one request that is read line by line.
    rows: int = 10_000_000
    #: Rows of part masters in one JSON body, which is answered from memory.
    json_rows: int = 200_000
    #: Bytes of the answer to rows.
    answer_bytes: int = 2048 * MIB
    #: Seconds that the rows of one request may be worked on.
    stream_seconds: int = 1800
    #: Bytes of bodies and answers that one worker process holds in temporary files at the same time.
    temporary_bytes: int = 8192 * MIB
    #: Seconds from the first byte of a request to the end of its headers.
    header_seconds: int = 20
    #: Seconds from the first byte of a request to the end of its body.
    body_seconds: int = 900
    #: Seconds without a byte: within a body, on a connection without a request, or of an answer that nobody reads.
    silent_seconds: int = 30
    #: Open connections of one worker process; more wait.
    connections: int = 2000
    #: Bytes that one worker process remembers of what it worked out before.
    remembered_bytes: int = 256 * MIB


def limits_from(texts: Iterable[str], limits: Limits | None = None) -> Limits:
    """Return limits with those changed that texts such as `rows=500000` name.

    Raises:
        BadLimit: no such limit, or no whole number above 0.
    """
    names = [field.name for field in fields(Limits)]
    changed: dict[str, int] = {}
    for text in texts:
        name, _, value = (part.strip() for part in text.partition("="))
        if name not in names:
            raise BadLimit(f"{name[:40]!r} is no limit; {', '.join(names)} are")
        if not (value.isascii() and value.isdigit() and int(value) > 0):
            raise BadLimit(f"{name}={value[:40]}: send a whole number above 0")
        changed[name] = int(value)
    return replace(limits or Limits(), **changed)
