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
    """One test of the standard. `applies` is None where the answer needs the length of the product."""

    id: str
    name: str
    applies: bool | None
    condition: str
    settings: dict[str, Setting]
    basis: Basis


@dataclass(frozen=True, slots=True)
class MechanicalMinimums:
    """Properties by id (stresses in MPa, hardness in its own scale), loads in N, area in mm2."""

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
    #: Hardness scales on which sources disagree: shown, never judged unless the request names the edition.
    disputed: dict[str, dict[str, Bounds]] = field(default_factory=dict)
    surface_over_core: Bounds | None = None
