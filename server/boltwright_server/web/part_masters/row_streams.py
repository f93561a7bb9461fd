"""Rows of a catalogue in and out of HTTP: JSON, NDJSON and CSV, gzip or plain, of any length.

Answers are written to a temporary file while the rows arrive: memory stays bounded, and a cut connection gets a clean
error instead of half an answer.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from decimal import Decimal
from typing import IO, Any

import msgspec
from flask import Response, request
from marshmallow import Schema, fields, validate
from werkzeug.wsgi import wrap_file

from ...part_masters.catalogue.columns import validated_members
from ...part_masters.catalogue.encodings import codec_of
from ...part_masters.catalogue.row import WORDS, header_of
from ...quantities import near_names
from ..http.bodies import ANYTHING, decoded, json_body, problem
from ..http.caching import JSON
from ..http.members import every_member, members_of
from ..http.problems import Problem
from ..http.request_streams import Allowance, body_stream, limits, within_rows, without_mark
from ..http.temporary_space import AnswerFile

NDJSON, CSV = "application/x-ndjson", "text/csv"
#: Bytes of one NDJSON line; longer lines come back as rows that cannot be read.
LONGEST_LINE = 8 * 1024 * 1024
_PIECE = 65_536
#: Encodings that a refusal names; many more are known.
_USUAL_ENCODINGS = "utf-8, utf-16, windows-1252, iso-8859-1, iso-8859-15, cp850"
_DELIMITERS = {"comma": ",", "semicolon": ";", "tab": "\t", "pipe": "|"}
#: Writes decimals as the numbers that they state.
ENCODER = msgspec.json.Encoder(decimal_format="number")
_ROWS = msgspec.json.Decoder(list[msgspec.Raw])
_OBJECT = msgspec.json.Decoder(dict[str, Any], float_hook=Decimal)


class CsvQuery(Schema):
    """How a CSV text is written; JSON and NDJSON need none of it."""

    delimiter = fields.String(
        validate=validate.OneOf(tuple(_DELIMITERS), error=f"is not one of {', '.join(_DELIMITERS)}"),
        metadata={"description": "CSV: detected from the header where it is not stated."},
    )
    encoding = fields.String(
        validate=validate.Length(1, 60, error="has 1 to 60 characters"),
        metadata={
            "description": "CSV: a name or alias of the IANA registry, `windows-1252`, `utf-16le`, `latin1`. UTF-8 or "
            "Windows-1252, detected, where it is not stated; a byte order mark counts before what is stated."
        },
    )
    columns = fields.String(
        validate=validate.Length(1, 2000, error="has 1 to 2000 characters"),
        metadata={"description": "CSV: column titles as members, `Artikel:part_number,Text:description`."},
    )


def delimiter_of(arguments: Mapping[str, Any]) -> str | None:
    """Return the delimiter that a request states."""
    return _DELIMITERS.get(arguments.get("delimiter", ""))


def encoding_of(arguments: Mapping[str, Any]) -> str | None:
    """Return the codec of the encoding that a request states, in the query or with its media type."""
    member = "encoding" if arguments.get("encoding") else "charset"
    name = arguments.get("encoding") or str(request.mimetype_params.get("charset", ""))
    if not name:
        return None
    codec = codec_of(name)
    if codec is None:
        detail = f"{member} {name[:40]!r} is no encoding of a text; {_USUAL_ENCODINGS} are, and their IANA aliases"
        raise problem("invalid", detail, (member,))
    return codec


def columns_of(arguments: Mapping[str, Any]) -> dict[str, str]:
    """Read `columns=Title:member,Title:member`."""
    found = {}
    for pair in arguments.get("columns", "").split(","):
        title, colon, member = pair.rpartition(":")
        if pair and not (colon and title.strip() and member.strip()):
            raise problem("invalid", f"columns: {pair[:60]!r} is no Title:member", ("columns",))
        if pair:
            found[" ".join(title.split())] = _member(member)
    return found


def _member(name: str) -> str:
    """Return a member that a column may be; a misspelt one would leave all its cells unread."""
    known, id = validated_members(), header_of(name.strip()).id
    if id not in known:
        near = near_names(id, known, 3) or WORDS
        detail = f"columns: {id[:60]!r} is no member; {', '.join(near)} are"
        refused = problem("unknown_member", detail, ("columns",))
        refused.nearest = tuple(near)
        raise refused
    return name.strip()


def rows_stream() -> IO[bytes]:
    """Return the body as a stream; gzip is unzipped on the way."""
    if request.mimetype not in (NDJSON, CSV, JSON):
        raise Problem("unsupported_media_type", f"send {JSON}, {NDJSON} or {CSV}")
    return body_stream()


def json_envelope() -> dict[str, msgspec.Raw]:
    """Return the members of a JSON body, plain or gzip."""
    return members_of(json_body(request), ())


def json_rows(raw: msgspec.Raw) -> Iterator[dict[str, Any] | str]:
    """Yield the rows of the member `part_masters`, or the sentence that says why there is none."""
    rows = decoded(_ROWS, raw, ("part_masters",), "an array of objects")
    allowance = Allowance(limits().json_rows)
    allowance.take(len(rows))
    for at, one in enumerate(rows):
        allowance.take(0)
        row = decoded(ANYTHING, one, ("part_masters", str(at)))
        yield every_member(bytes(one), row) if isinstance(row, dict) else "the row is no JSON object"


def row_of(line: bytes) -> dict[str, Any] | str:
    """Return the row of an NDJSON line, or the sentence that says why there is none."""
    if len(line) > LONGEST_LINE:
        return f"the line has {len(line)} bytes; at most {LONGEST_LINE} are read"
    try:
        return every_member(line, _OBJECT.decode(line))
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        return f"the line is no JSON object: {error}"


def lines_of(stream: IO[bytes]) -> Iterator[bytes]:
    """Yield lines that are not blank; of a line that is too long only its length matters."""
    first = True
    while line := stream.readline(LONGEST_LINE + 1):
        if first:
            line, first = without_mark(line), False
        while not line.endswith(b"\n") and len(line) > LONGEST_LINE:
            more = stream.readline(_PIECE)
            if not more or more.endswith(b"\n"):
                break
        if line.strip():
            yield line


def blocks_of(lines: Iterable[bytes]) -> Iterator[list[bytes]]:
    """Yield lines in blocks that are done at once: some hundred lines, or a few long ones."""
    yield from within_rows(_blocks(lines))


def _blocks(lines: Iterable[bytes]) -> Iterator[list[bytes]]:
    block, size = [], 0
    for line in lines:
        block.append(line)
        size += len(line)
        if size > _PIECE:
            yield block
            block, size = [], 0
    if block:
        yield block


def sent(file: IO[bytes], media_type: str, headers: Mapping[str, str] | None = None) -> Response:
    """Send a file, whose size is known and stated; the server closes it, so that a slow reader holds no thread."""
    size = file.seek(0, io.SEEK_END)
    body = wrap_file(request.environ, rewound(file), _PIECE)
    response = Response(body, content_type=f"{media_type}; charset=utf-8", direct_passthrough=True)
    response.content_length = size
    response.headers.extend(headers or {})
    return response


@contextmanager
def closed_on_failure(file: IO[bytes]) -> Iterator[IO[bytes]]:
    """Close the file unless all went well; then whoever sends it closes it."""
    try:
        yield file
    except BaseException:
        file.close()
        raise


def spooled_file() -> IO[bytes]:
    """Return a temporary file for an answer, which stays in memory while it is small."""
    return AnswerFile(limits().answer_bytes)


def rewound(file: IO[bytes]) -> IO[bytes]:
    """Return the file, to be read from its start."""
    file.seek(0)
    return file
