"""GET /v1/mechanical-minimums: properties, loads and tests of a thread in a property class."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..decoding import Result
from ..transport import Connection, flag
from ..values import Basis, Bounds
from .derivation import Step


@dataclass(frozen=True, slots=True, kw_only=True)
class Test:
    """A test: whether it applies and why, how it is set up, what passes.

    `applies` is None where the length would be needed to say so. `specimens` is the smallest sample of ISO 3269:2000
    with acceptance number 0; the order or another plan may ask for more.
    """

    id: str
    name: str = ""
    applies: bool | None = None
    reason: str = ""
    condition: str = ""
    specimen: str = ""
    destructive: bool = True
    specimens: Bounds | None = None
    readings_per_specimen: int = 1
    equipment: tuple[str, ...] = ()
    settings: Mapping[str, Bounds] = field(default_factory=dict)
    acceptance: str = ""
    cautions: tuple[str, ...] = ()
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Steel:
    """A steel that the class may be made of: mass fractions of the cast analysis in percent, by chemical symbol."""

    name: str
    treatment: str | None = None
    elements: Mapping[str, Bounds] = field(default_factory=dict)
    tempering_temperature: Bounds | None = None
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Marking:
    """What must stand where on the part."""

    place: str
    symbol: str
    requirement: str = ""
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class MechanicalMinimums(Result):
    """Properties and loads by id, as bounds.

    `disputed` holds limits on which sources or editions disagree, by hardness scale or property and edition.
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
    chemical_composition: tuple[Steel, ...] = ()
    marking: tuple[Marking, ...] = ()
    tests: tuple[Test, ...] = ()
    notices: tuple[str, ...] = ()
    derivation: tuple[Step, ...] = ()


def mechanical_minimums(
    connection: Connection,
    thread: str,
    property_class: str | None = None,
    *,
    grade: str | None = None,
    member: str | None = None,
    style: int | None = None,
    form: str | None = None,
    structural: bool | None = None,
    unit: str | None = None,
    explain: bool | None = None,
) -> MechanicalMinimums:
    """Return the mechanical properties, loads and tests of a thread.

    Args:
        thread: a size without tolerance class, as M10, M10x1.25 or 1/2-13.
        property_class: as 8.8 or A2-70 for a bolt, 8 for a nut, 08.8 for reduced loadability.
        grade: a grade of another standard in its place, as SAE J429 5.
        member: `external` for a bolt, `internal` for a nut, where the class alone does not say it.
        style: of a nut of ISO 898-2: 0 thin, 1 regular, 2 high.
        form: of a nut of ASTM A194 or A563: `hex` or `heavy_hex`.
        structural: for structural bolting, where class 8.8 has higher loads from M12.
        unit: show what has this dimension in this unit, as kN, lbf, MPa or ksi.
        explain: adds `derivation`, the steps to stress area and loads (metric threads).

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
        form=form,
        structural=flag(structural),
        unit=unit,
        explain=flag(explain),
    )
