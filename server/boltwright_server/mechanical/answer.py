"""What every property class or grade answers with."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from ..quantities import Basis, Bounds


@dataclass(frozen=True, slots=True)
class Setting:
    """One condition of a test, such as a wedge angle; `None` is an open side."""

    min: Decimal | None
    max: Decimal | None
    unit: str
    basis: Basis


@dataclass(frozen=True, slots=True)
class Test:
    """One test of the standard: whether it applies to this part and why, how it is set up, and what passes.

    `applies` is None where the answer needs the length of the product. `pieces` is the smallest sample of ISO 3269:2000
    (acceptance number 0), None where that standard does not hold.
    """

    id: str
    name: str
    applies: bool | None
    reason: str
    condition: str
    specimen: str
    destructive: bool
    pieces: Setting | None
    readings: int
    equipment: tuple[str, ...]
    acceptance: str
    cautions: tuple[str, ...]
    settings: dict[str, Setting]
    basis: Basis


@dataclass(frozen=True, slots=True)
class Steel:
    """One steel that a class may be made of: elements in mass fraction percent, tempering in degrees Celsius."""

    name: str
    treatment: str | None
    elements: dict[str, Bounds]
    tempering_temperature: Bounds | None
    basis: Basis


@dataclass(frozen=True, slots=True)
class Mark:
    """What must stand where on the part, beside the manufacturer's identification mark."""

    place: str
    symbol: str
    requirement: str
    basis: Basis


@dataclass(frozen=True, slots=True)
class MechanicalMinimums:
    """Properties and loads by id, each in the unit of its standard."""

    standard: str
    edition: str
    thread: str
    property_class: str
    member: str
    stress_area: Bounds
    properties: dict[str, Bounds]
    loads: dict[str, Bounds]
    tests: tuple[Test, ...]
    notices: tuple[str, ...] = ()
    #: Property (hardness: its scale) -> edition -> limits, where sources or editions disagree: shown, never judged
    #: unless the request names the edition.
    disputed: dict[str, dict[str, Bounds]] = field(default_factory=dict)
    surface_over_core: Bounds | None = None
    steels: tuple[Steel, ...] = ()
    marking: tuple[Mark, ...] = ()
    #: Where the minimum hardness only guides while the test of strength holds: the clause that says so.
    hardness_guides: Basis | None = None

    def test(self, id: str) -> Test | None:
        """Return one of the tests by its id."""
        return next((test for test in self.tests if test.id == id), None)


@dataclass(frozen=True, slots=True)
class PartShape:
    """What of a part decides which tests are possible and where it is marked; lengths in the unit of the thread."""

    length: Decimal | None = None
    thread_length: Decimal | None = None
    fully_threaded: bool = False
    kind: str = "hexagon"
