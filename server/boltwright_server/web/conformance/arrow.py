"""A lot as one Arrow IPC stream: columns named as characteristics, what stands beside their values as metadata.

The answer is that of the same columns as JSON, byte for byte. Arrow carries doubles as they are, so that no number is
printed and parsed on the way. Apache Arrow columnar format, "Encapsulated message format" and "IPC streaming format".
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec
import numpy as np

from ...conformance import Column, LotPlan
from ..http.bodies import ANYTHING, problem
from ..http.members import members_of
from ..http.problems import Problem
from .arrow_messages import END_MARKER, is_compressed
from .body import Sent, Written, check_words, column_settings, kind_of, lot_plan

MEDIA_TYPE = "application/vnd.apache.arrow.stream"
#: Key of the schema's metadata: the JSON of everything but the readings.
REQUEST = "request"
#: Members of a column that may be plain words; numbers, lists and objects are written as in JSON.
_WORDS = ("unit", "decision_rule", "edition", "repeated", "instrument", "measured_at")
#: Readings of one request: as many doubles as a body may hold. Columns that share their bytes may claim more.
_MOST_READINGS = 8 * 1024 * 1024
_ADVICE = {
    "measured": "float64 or whole numbers (a float32 is not the number that was read)",
    "attribute": "bool (true: the requirement is met)",
    "category": "utf8",
}


def read_arrow(body: bytes) -> Sent:
    """Return the plan and the columns of the lot that an Arrow IPC stream holds.

    Raises:
        Problem: pyarrow is not installed, no such stream, or a column of the wrong kind; `errors` points at it.
    """
    arrow = _pyarrow()
    table = _table(arrow, body)
    text = (table.schema.metadata or {}).get(REQUEST.encode(), b"{}")
    envelope = members_of(text, ())
    if "readings" in envelope:
        raise problem("unknown_member", f"readings stand in the columns, not in {REQUEST}", ("readings",))
    plan = lot_plan(envelope)
    _check_types(arrow, table.schema, plan)
    read = [_column(arrow, field, table.column(at), plan) for at, field in enumerate(table.schema)]
    return Sent(plan, tuple(column for column, _ in read), envelope, {column.id: shown for column, shown in read})


def _pyarrow() -> Any:
    try:
        import pyarrow
    except ImportError:
        detail = (
            "Arrow is read where pyarrow is installed beside the service: boltwright[arrow]; or send JSON or NDJSON"
        )
        raise Problem("unsupported_media_type", detail) from None
    return pyarrow


def _table(arrow: Any, body: bytes) -> Any:
    """Return the table, checked throughout: what a client sent is read by code that trusts its lengths."""
    try:
        with arrow.ipc.open_stream(body) as stream:
            _check_names(stream.schema)
            _check_messages(arrow, body)
            table = stream.read_all()
        table.validate(full=True)
    except (arrow.ArrowException, OSError, ValueError, OverflowError) as error:
        raise problem("bad_request", f"not an Arrow IPC stream: {str(error)[:200]}", ()) from None
    if table.num_rows * table.num_columns > _MOST_READINGS:
        raise problem("content_too_large", f"more than {_MOST_READINGS} readings; send NDJSON in blocks", ())
    return table


def _check_messages(arrow: Any, body: bytes) -> None:
    """Refuse compressed buffers, and a stream that does not end with its end marker and nothing behind it."""
    source = arrow.BufferReader(body)
    reader = arrow.ipc.MessageReader.open_stream(source)
    reader.read_next_message()
    end = source.tell()
    while True:
        try:
            message = reader.read_next_message()
        except StopIteration:
            break
        end = source.tell()
        if is_compressed(message.metadata.to_pybytes()):
            raise problem("invalid", "the buffers are compressed; send them as they are", ())
    if body[end:] != END_MARKER:
        behind = len(body) - end
        what = f"{behind - len(END_MARKER)} bytes stand behind it" if body[end:].startswith(END_MARKER) else "it is cut"
        detail = f"the Arrow IPC stream has to end with its end marker of {len(END_MARKER)} bytes: {what}"
        raise problem("body_not_whole", detail, ())


def _check_names(schema: Any) -> None:
    """Refuse a column that is named twice."""
    if len(set(schema.names)) != len(schema.names):
        twice = next(name for name in schema.names if schema.names.count(name) > 1)
        raise problem("repeated_member", f"column {twice[:60]} stands twice", ("readings", twice))


def _check_types(arrow: Any, schema: Any, plan: LotPlan) -> None:
    """Refuse a column whose type is not that of its characteristic."""
    is_right = _types(arrow)
    for field in schema:
        kind = kind_of(field.name, plan)
        if not is_right[kind](field.type):
            detail = f"{field.name[:60]}: column of type {str(field.type)[:60]}; send {_ADVICE[kind]}"
            raise problem("wrong_type", detail, ("readings", field.name))


def _types(arrow: Any) -> dict[str, Callable[[Any], bool]]:
    types = arrow.types
    return {
        "measured": lambda given: types.is_float64(given) or types.is_integer(given),
        "attribute": types.is_boolean,
        "category": lambda given: types.is_string(given) or types.is_large_string(given),
    }


def _column(arrow: Any, field: Any, values: Any, plan: LotPlan) -> tuple[Column, dict[str, Any] | list[Any]]:
    """Return a column and its canonical form: a list, or an object where something stands beside the values."""
    id = field.name
    path = ("readings", id) if not (written := _written(field)) else ("readings", id, "values")
    settings = column_settings(id, written)
    if arrow.types.is_float64(field.type):
        found = values.to_numpy()
        _check_finite(id, found, values.null_count, path)
        listed = found.tolist() if not values.null_count else [None if one != one else one for one in found.tolist()]
    else:
        listed = values.to_pylist()
        found = np.array(listed, dtype=np.float64) if kind_of(id, plan) == "measured" else listed
        check_words(id, listed, path)
    beside = {name: ANYTHING.decode(text) for name, text in written}
    return settings._replace(values=found, bare=not written), {"values": listed, **beside} if written else listed


def _written(field: Any) -> Written:
    """Return what stands beside the values, as JSON would write it; other programs' keys hold a colon."""
    found = []
    for key, value in (field.metadata or {}).items():
        name = key.decode("utf-8", "replace")
        word = name in _WORDS and not value.lstrip().startswith((b"{", b"["))
        if ":" not in name:
            found.append((name, msgspec.json.encode(value.decode("utf-8", "replace")) if word else value))
    return tuple(found)


def _check_finite(id: str, values: np.ndarray, missing: int, path: tuple[str, ...]) -> None:
    """Refuse NaN and infinity, as JSON does; a piece that was not measured is null."""
    if int(np.count_nonzero(np.isfinite(values))) == len(values) - missing:
        return
    raise problem("wrong_type", f"{id}: NaN and infinity are no readings; null where none was measured", path)
