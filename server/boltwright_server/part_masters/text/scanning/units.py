"""Units behind a length: those of its own system are converted, a strange one leaves the length open."""

from __future__ import annotations

from decimal import Decimal

from ..scanned import Unsettled
from .cursor import Cursor

#: How many of the unit of the system one of these is.
_METRIC = {
    "MM": 1,
    "CM": 10,
    **dict.fromkeys(("METER", "METRE", "METERS", "METRES", "MTR", "MT", "MTRS", "METRO", "METROS", "METRI"), 1000),
}
_INCH = {"IN": 1, "INCH": 1, "INCHES": 1, '"': 1, "ZOLL": 1, "FEET": 12, "FOOT": 12}
WRITTEN = frozenset((*_METRIC, *_INCH))
#: Of rods only: elsewhere `M` begins the next size, and `FT` is a full thread.
_OF_RODS = {"metric": {"M": 1000}, "inch": {"FT": 12, "'": 12}}
RODS = ("threaded rod", "rod or stud")


def in_own_unit(cursor: Cursor, value: str) -> str | None:
    """Return a length in the unit of its system, by the unit behind it; a strange unit leaves it open: None."""
    system = cursor.scanned.reading.system or "metric"
    unit = cursor.text() if cursor.at < len(cursor.atoms) else ""
    own, strange = (_INCH, _METRIC) if system == "inch" else (_METRIC, _INCH)
    if cursor.scanned.reading.features.get("other") in RODS:
        own = own | _OF_RODS[system]
    if unit in own:
        cursor.at += 1
        return value if own[unit] == 1 else _times(value, own[unit])
    if unit in strange and not (unit == '"' and _quotes(cursor)):
        cursor.at += 1
        _strange(cursor, value, unit)
        return None
    return value


def _quotes(cursor: Cursor) -> bool:
    """Marks that come in pairs are quotation marks."""
    return sum(atom.text == '"' for atom in cursor.atoms) % 2 == 0


def _times(value: str, factor: int) -> str:
    if "/" in value:
        return value
    return format((Decimal(value) * factor).normalize(), "f")


def _strange(cursor: Cursor, value: str, unit: str) -> None:
    right = "inches" if cursor.scanned.reading.system == "inch" else "mm"
    given = f"{value} {unit}".replace(' "', '"')
    detail = f"the length is {given}, but lengths of this size are in {right}: state it in {right}"
    cursor.scanned.reading.unsettled.append(Unsettled("length", given, detail, "value-unreadable"))
