"""Letters after the property class that mark threads cut for galvanizing.

ISO 10684:2004: U undersize bolts 6az, Z and X oversize nuts 6AZ and 6AX. `12.9U` is the underlined 12.9 of ISO 898-1.
"""

from __future__ import annotations

from ..quantities.keeper import remembered
from ..standards import rules

UNDERSIZE = "U"
_UNDERLINED = "12.9U"


@remembered()
def _class_of_mark() -> dict[str, str]:
    rows = rules("ISO 10684").table("marking").rows.values()
    return {row.word("mark"): str(row.key[0]) for row in rows}


def class_and_mark(written: str) -> tuple[str, str]:
    """Return property class and mark of `8.8U`, `8Z` or `8X`; the mark is empty where none is written."""
    if written != _UNDERLINED and written[-1:] in _class_of_mark():
        return written[:-1], written[-1]
    return written, ""


def tolerance_class_of(mark: str) -> str | None:
    """Return the tolerance class that a mark stands for, or None."""
    return _class_of_mark().get(mark)
