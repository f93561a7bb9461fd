"""The corrected row: members that would change, and what they would be; only where nothing else can be meant."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from .findings import Finding
from .requirement import Requirement

#: Findings that leave it open what the row should say.
_OPEN = frozenset(
    (
        *(
            "attribute-contradicts-description",
            "words-contradict",
            "property-class-unknown",
            "coating-not-in-standard",
            "coating-unknown",
        ),
        *("cells-do-not-fit", "cell-too-long"),
    )
)


def proposed(found: Requirement, said: list[Finding], given: Mapping[str, Any]) -> dict[str, str]:
    """Return the members of the row that would change: figures in the standard's unit, the canonical designation."""
    written = given.get("designation")
    if found.designation is None or (not said and not written) or any(one.code in _OPEN for one in said):
        return {}
    changed = {one.member: one.right for one in said if one.right is not None}
    if isinstance(written, str) and written.strip() and written != found.designation:
        changed["designation"] = found.designation
    return changed
