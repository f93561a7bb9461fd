"""POST /v1/conformance as an Arrow IPC stream: the verdict on the columns of an Arrow table. It changes nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..decoding import decode
from ..transport import Connection, written_json
from .conformance import Conformance

if TYPE_CHECKING:
    import pyarrow

MEDIA_TYPE = "application/vnd.apache.arrow.stream"


def conformance_arrow(connection: Connection, designation: str, table: pyarrow.Table, **settings: Any) -> Conformance:
    """Judge the columns of an Arrow table, named as characteristics; null is a piece that was not measured.

    Args:
        designation: what the lot is.
        table: float64, whole numbers, bool or text. What stands beside the values of a column is metadata of its
            field, as unit and expanded_uncertainty; other metadata of the table is not sent.
        settings: those of `Client.conformance`, as lot_size and decision_rule.

    Raises:
        ImportError: pyarrow is not installed: `pip install 'boltwright[arrow]'`. Others: as `Client.conformance`, and
        the service refuses Arrow where it has no pyarrow itself.
    """
    from pyarrow import BufferOutputStream, ipc

    head = {"designation": designation, **{name: value for name, value in settings.items() if value is not None}}
    named = table.replace_schema_metadata({"request": written_json(head)})
    sink = BufferOutputStream()
    with ipc.new_stream(sink, named.schema) as writer:
        writer.write_table(named)
    return decode(Conformance, connection.post_text("/v1/conformance", sink.getvalue().to_pybytes(), MEDIA_TYPE))
