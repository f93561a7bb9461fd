"""Questions about what stands around a product: former standards, ends of threads, settings of tests."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from boltwright_server.designations import parse_thread
from boltwright_server.products.look_alikes import differences, look_alike_in
from boltwright_server.standards import standard

from ..check import Cells, Check
from ..comparison import Answer


def former_standards(row: Cells, check: Check) -> Answer:
    """A limit of a former standard beside that of the standard that replaced it."""
    found = look_alike_in(row["former"])
    assert found is not None
    symbol, _, limit = row["column"].partition("_")
    known = {(one.symbol, one.limit): one for one in differences(found, row["thread"])}
    one = known[symbol, {"nom": "nominal"}.get(limit, limit)]
    return {"former_value": one.former, "partner_value": one.partner}


def thread_ends(row: Cells, check: Check) -> Answer:
    """The least length of a point: its multiple of d, to 0.01 mm."""
    end = standard(check.folder).table("ends").find(row["end"])
    assert end is not None
    length = end.number("point_length_in_d") * parse_thread(row["thread"]).size.d
    return {"point_length_min": length.quantize(Decimal("0.01"), ROUND_HALF_UP)}


def test_settings(row: Cells, check: Check) -> Answer:
    """A setting of a test as its table holds it."""
    found = standard(check.folder).table("test_settings").find(row["test"], row["setting"])
    assert found is not None
    return {"unit": found.word("unit"), "min": found.get("min"), "max": found.get("max")}


def table_cells(row: Cells, check: Check) -> Answer:
    """Cells of one row of a table that no other question reaches; the parts of its key are parted by semicolons."""
    key = row["key"].split("; ")
    table = standard(check.folder).table(row["table"])
    (found,) = (one for one in table.rows.values() if _is_key(one.key, key))
    return {column: found.cells[column] for column in check.expected}


def _is_key(parts: tuple[Decimal | str, ...], written: list[str]) -> bool:
    pairs = zip(parts, written, strict=True)
    return all(part == (Decimal(text) if isinstance(part, Decimal) else text) for part, text in pairs)


QUESTIONS = {
    "table_cells": table_cells,
    "former_standards": former_standards,
    "thread_ends": thread_ends,
    "test_settings": test_settings,
}
