"""GET /v1/hardness-conversion: an estimate on another scale, never a verdict."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from ..decoding import Result
from ..transport import Connection
from ..values import Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A row of the table at or beside the value."""

    given: float = field(metadata={"member": "from"})
    wanted: float = field(metadata={"member": "to"})


@dataclass(frozen=True, slots=True, kw_only=True)
class HardnessConversion(Result):
    """An estimate. Acceptance is judged on the scale that was measured; a converted value never decides."""

    value: float
    given: str = field(metadata={"member": "from"})
    wanted: str = field(metadata={"member": "to"})
    estimate: float
    unit: str
    is_estimate: bool = True
    table: str
    material: str = ""
    between: tuple[Point, ...] = ()
    basis: Basis
    notices: tuple[str, ...] = ()


def hardness_conversion(
    connection: Connection, value: float | Decimal | str, given: str, wanted: str, *, table: str | None = None
) -> HardnessConversion:
    """Estimate a hardness on another scale, or the tensile strength.

    Args:
        value: as measured.
        given: the scale of the value: HV, HBW, HRB, HRC, or MPa for tensile strength.
        wanted: the scale of the estimate.
        table: `ISO 18265 A.1` (unalloyed and low-alloy steels, the default) or `ASTM E140 1` (non-austenitic steels).

    Raises:
        NotStandardisedError: outside the rows of the table; nothing is extrapolated. Others: see `boltwright.errors`.
    """
    query = {"value": str(value), "from": given, "to": wanted, "table": table}
    return connection.get(HardnessConversion, "/v1/hardness-conversion", **query)
