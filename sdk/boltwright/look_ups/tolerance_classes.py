"""GET /v1/tolerance-classes: which classes exist, and for which pitches."""

from __future__ import annotations

from dataclasses import dataclass

from ..decoding import Result
from ..transport import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class ToleranceClass:
    """A class with the threads for which its standard gives every limit.

    `pitches` in mm, or threads per inch for Unified threads; diameters in `unit`. Grades and positions: of the pitch
    diameter, then of the crest where it differs.
    """

    designation: str
    system: str
    standard: str
    member: str
    grades: tuple[str, ...] = ()
    positions: tuple[str, ...] = ()
    pitches: tuple[float, ...] = ()
    series: tuple[str, ...] = ()
    least_diameter: float
    greatest_diameter: float
    unit: str
    thread_count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ToleranceClasses(Result):
    """The tolerance classes."""

    tolerance_classes: tuple[ToleranceClass, ...]


def tolerance_classes(
    connection: Connection, *, system: str | None = None, member: str | None = None, thread: str | None = None
) -> ToleranceClasses:
    """Return the tolerance classes that exist.

    Args:
        system: ISO metric or Unified inch.
        member: external or internal.
        thread: a thread without class, such as M10: only its classes.

    Raises:
        NotFoundError: no such system or size. Others: see `boltwright.errors`.
    """
    return connection.get(ToleranceClasses, "/v1/tolerance-classes", system=system, member=member, thread=thread)
