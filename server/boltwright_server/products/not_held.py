"""Threads and products that are known by name and are not held, with the reason why nothing is answered.

Common practice of the trade; what a name means, and no figure of it.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from pathlib import Path

from ..quantities import NotCovered, near_names
from ..quantities.keeper import remembered
from .catalogue import products

_HERE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class NotHeld:
    """What a name means and why there is no answer for it."""

    pattern: re.Pattern[str]
    what: str
    reason: str


@remembered()
def _known() -> tuple[NotHeld, ...]:
    with (_HERE / "not_held.csv").open(encoding="utf-8", newline="") as file:
        return tuple(
            NotHeld(re.compile(rf"\s*(?:{row['pattern']})", re.IGNORECASE), row["what"], row["reason"])
            for row in csv.DictReader(file)
        )


@remembered(4096)
def not_held(text: str) -> NotHeld | None:
    """Return what a designation starts with where it is known and not held, else None."""
    return next((one for one in _known() if one.pattern.match(text[:80])), None)


def refuse_not_held(text: str, member: str = "designation") -> None:
    """Refuse a designation of a thread or product that is known by name and not held.

    Raises:
        NotCovered: it is; says what it is and why nothing is answered.
    """
    found = not_held(text)
    if found is not None:
        name = text.strip()[:40]
        near = near_names(name.split(" - ")[0], [product.id for product in products()])
        detail = f"{name} names {found.what}, which is not held: {found.reason}"
        raise NotCovered(detail, member=member, nearest=near)
