"""GET /v1/mechanical-minimums: properties, loads and tests of a thread in a property class."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from .decoding import Result
from .transport import Connection
from .values import Basis, Bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class Test:
    """A test; `applies` is None where the length would be needed to say so."""

    id: str
    name: str = ""
    applies: bool | None = None
    condition: str = ""
    settings: Mapping[str, Bounds] = field(default_factory=dict)
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class MechanicalMinimums(Result):
    """Properties and loads by id, as bounds.

    `disputed` holds, by hardness scale and edition, limits on which sources disagree.
    """

    standard: str
    edition: str
    thread: str
    property_class: str
    member: str
    stress_area: Bounds
    properties: Mapping[str, Bounds]
    loads: Mapping[str, Bounds]
    disputed: Mapping[str, Mapping[str, Bounds]] = field(default_factory=dict)
    tests: tuple[Test, ...] = ()
    notices: tuple[str, ...] = ()


def mechanical_minimums(
    connection: Connection,
    thread: str,
    property_class: str | None = None,
    *,
    grade: str | None = None,
    member: str | None = None,
    style: int | None = None,
) -> MechanicalMinimums:
    """Return the mechanical properties of a thread.

    Args:
        thread: a size without tolerance class, as M10 or M10x1.25.
        property_class: as 8.8 for a bolt, 8 for a nut.
        grade: a grade of another standard in its place, as SAE J429 5.
        member: `external` for a bolt, `internal` for a nut, where the class alone does not say it.
        style: of a nut: 0 thin, 1 regular, 2 high.

    Raises:
        NotFoundError: no such size or class. NotStandardisedError: no value for the pair. Others: see
        `boltwright.errors`.
    """
    return connection.get(
        MechanicalMinimums,
        "/v1/mechanical-minimums",
        thread=thread,
        property_class=property_class,
        grade=grade,
        member=member,
        style=style,
    )
