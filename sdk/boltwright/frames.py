"""A pandas frame of part masters through the service; needs the extra `frames`."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from .part_masters.part_masters_validation import part_masters_validation_iter
from .part_masters.validation.parts import told_apart
from .transport import Connection

if TYPE_CHECKING:
    from pandas import DataFrame

COLUMNS = ("status", "designation", "confidence", "codes", "findings")


def validate_frame(client: Connection, frame: DataFrame, batch: int = 2000) -> DataFrame:
    """Return one row for each of `frame`, with its index: ready to be joined to it.

    Columns: `status`, `designation` (None where it is not certain), `confidence`, `codes` (tuple of texts) and
    `findings` (tuple of `Finding`). `attrs` holds `columns_read` and `columns_not_read` of `frame`, these with the
    member nearest to each.

    Args:
        client: a `Client`.
        frame: its columns are named as members of a row, `part_number`, `description`, `tensile_load [lbf]`; what is
            missing (NaN, None, NaT) is left out.
        batch: rows of one request.

    Raises:
        Error: see `boltwright.errors`.
    """
    import pandas

    found = part_masters_validation_iter(client, _rows(frame), batch)
    rows = [
        (one.status, one.designation, one.confidence, tuple(each.code for each in one.findings), one.findings)
        for one in found
    ]
    # As objects: else None would become NaN, and a frame without rows would have columns of numbers.
    back = pandas.DataFrame(rows, index=frame.index, columns=list(COLUMNS), dtype=object).astype({"confidence": float})
    back.attrs.update(found.columns.members())
    return back


def _rows(frame: DataFrame) -> Iterator[dict[str, Any]]:
    names = told_apart(str(name) for name in frame.columns)
    missing = frame.isna().to_numpy()
    for at, values in enumerate(frame.itertuples(index=False, name=None)):
        yield {
            name: _plain(value) for name, value, absent in zip(names, values, missing[at], strict=True) if not absent
        }


def _plain(value: Any) -> Any:
    """Numbers of numpy become numbers of JSON, whole floats whole numbers; anything else is text."""
    value = value.item() if hasattr(value, "item") else value
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return int(value)
    return value if isinstance(value, int | float) and not isinstance(value, bool) else str(value)
