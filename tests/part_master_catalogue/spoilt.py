"""A row that was spoilt in a known way, with its truth."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from random import Random

from .parts import Part

NOT_JUDGED = "*"
Row = dict[str, str]


@dataclass(slots=True)
class Spoilt:
    """A spoilt row with its truth. `requirement` is empty where it is not compared with other rows."""

    row: Row
    codes: set[str]
    designation: str
    requirement: str = ""
    extra_cells: list[str] = field(default_factory=list)


Fault = Callable[[Part, Random], "Spoilt | None"]


def told(part: Part, row: Row, *codes: str) -> Spoilt:
    """Return the row of a part that is certain, whatever else is wrong with it."""
    return Spoilt(row, set(codes), part.canonical, part.requirement)
