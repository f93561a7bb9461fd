"""ISO general purpose metric screw threads: which sizes exist and what a tolerance class says.

ISO 261:1998 (general plan), ISO 262:1998 (selection for fasteners), ISO 965-1:2013, clause 5 (designation of classes).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from ..quantities import Basis, NotUnderstood, UnknownName
from ..quantities.keeper import remembered
from ..quantities.rounding import shortest
from ..standards import current, rules
from .thread_limits import Member

SYSTEM = "ISO metric"
#: One letter, or az, AZ, AX of ISO 965-4 and ISO 965-5.
_POSITION = r"az|AZ|AX|[A-Za-z]"
_CLASS = re.compile(rf"(?:(\d)({_POSITION}))?(\d)({_POSITION})")


@dataclass(frozen=True, slots=True)
class MetricSize:
    """A nominal diameter with a pitch, both in mm, that ISO 261 lists."""

    d: Decimal
    pitch: Decimal
    series: str
    choice: int

    system = SYSTEM

    @property
    def designation(self) -> str:
        """The canonical designation: the coarse pitch is not written."""
        return f"M{self.d}" if self.series == "coarse" else f"M{self.d}x{self.pitch}"


@dataclass(frozen=True, slots=True)
class ToleranceClass:
    """Tolerance grade and position of the pitch diameter, then of the crest diameter (d or D1)."""

    pitch_grade: int
    pitch_position: str
    crest_grade: int
    crest_position: str

    system = SYSTEM

    @property
    def member(self) -> Member:
        """Small letters are external threads, capitals internal ones."""
        return "internal" if self.pitch_position.isupper() else "external"

    @property
    def designation(self) -> str:
        """The class as written: one symbol where both are equal."""
        crest = f"{self.crest_grade}{self.crest_position}"
        pitch = f"{self.pitch_grade}{self.pitch_position}"
        return crest if pitch == crest else pitch + crest

    @classmethod
    @remembered(4096)
    def parse(cls, text: str) -> ToleranceClass:
        """Read `6g` or `5g6g`.

        ISO 965-1:2013, clause 5.

        Raises:
            NotUnderstood: no grade and position, or one symbol of a bolt and one of a nut.
        """
        match = _CLASS.fullmatch(text)
        if match is None:
            raise NotUnderstood(
                f"{text!r} is no tolerance class: write a grade and a position, as 6g, 6H or 5g6g",
                member="designation",
            )
        grade, position = int(match[3]), match[4]
        found = cls(int(match[1] or grade), match[2] or position, grade, position)
        if found.pitch_position.isupper() != found.crest_position.isupper():
            raise NotUnderstood(
                f"{text!r} mixes an internal and an external symbol; a fit is written 6H/6g",
                member="designation",
            )
        return found


@remembered()
def _plan() -> dict[tuple[Decimal, Decimal], MetricSize]:
    table = rules("ISO 261").table("table_2")
    plan = {}
    for row in table.rows.values():
        d, pitch = row.number("d"), row.number("pitch")
        choice = row.get("choice")
        plan[d, pitch] = MetricSize(shortest(d), shortest(pitch), row.word("series"), int(choice or 0))
    return plan


def size_basis(size: MetricSize) -> Basis:
    """Return the basis of diameter and pitch: the row of the general plan, checked as its series is."""
    row = rules("ISO 261").table("table_2").find(size.d, size.pitch)
    assert row is not None
    return row.basis("series")


def sizes() -> Iterator[MetricSize]:
    """Yield every size of ISO 261:1998 in the order of the plan."""
    yield from _plan().values()


@remembered(4096)
def find_size(d: Decimal, pitch: Decimal | None = None) -> MetricSize:
    """Return the size of that diameter and pitch in mm; no pitch means the coarse one.

    ISO 261:1998, Table 2.

    Raises:
        UnknownName: ISO 261 has no such diameter, no such pitch for it, or no coarse pitch for it.
    """
    of_diameter = [size for size in _plan().values() if size.d == d]
    if not of_diameter:
        raise UnknownName(
            f"{rules('ISO 261').cited} lists no nominal diameter of {d} mm",
            member="designation",
            code="unknown_size",
            nearest=_nearest_diameters(d),
        )
    for size in of_diameter:
        if size.pitch == pitch or (pitch is None and size.series == "coarse"):
            return size
    asked = "no coarse pitch" if pitch is None else f"no pitch of {pitch} mm"
    raise UnknownName(
        f"{rules('ISO 261').cited} lists {asked} for M{shortest(d)}",
        member="designation",
        code="unknown_size",
        nearest=_nearest_pitches(of_diameter, pitch),
    )


def _nearest_diameters(d: Decimal) -> list[str]:
    diameters = sorted({size.d for size in _plan().values()}, key=lambda known: abs(known - d))
    return [f"M{known}" for known in sorted(diameters[:3])]


def _nearest_pitches(of_diameter: list[MetricSize], pitch: Decimal | None) -> list[str]:
    by_distance = sorted(of_diameter, key=lambda size: abs(size.pitch - (pitch or 0)))
    return [size.designation for size in by_distance[:3]]


def in_selection_for_fasteners(size: MetricSize) -> bool:
    """Say whether ISO 262:1998 selects the size for screws, bolts, studs and nuts."""
    selection = current("ISO 262")
    return selection is not None and any(
        (row.get("d"), row.get("pitch")) == (size.d, size.pitch)
        for table in selection.tables.values()
        for row in table.rows.values()
    )
