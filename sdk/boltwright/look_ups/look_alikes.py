"""GET /v1/look-alikes: former standards, what replaced them and how that is known, and where the two differ."""

from __future__ import annotations

from dataclasses import dataclass

from ..decoding import Result
from ..transport import Connection
from ..values import Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Nominal:
    """One nominal dimension."""

    value: float
    unit: str
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """A limit (max, min or nominal) in which a former standard and what replaced it differ."""

    size: str
    dimension: str
    symbol: str = ""
    limit: str = ""
    former: Nominal
    partner: Nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class LookAlike:
    """A former standard; `detail` says what differs. Where no difference is held, two parts are not thereby equal.

    `partner` is None where no standard replaced it; where it is not held, nothing is compared. `basis` says what
    names the partner.
    """

    former_standard: str
    former_held: bool = False
    partner: str | None = None
    partner_held: bool = False
    basis: Basis
    partner_designation: str | None = None
    differences: tuple[Difference, ...]
    detail: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LookAlikes(Result):
    """The look-alikes of what was asked, or all that are known."""

    size: str | None = None
    look_alikes: tuple[LookAlike, ...]


def look_alikes(connection: Connection, designation: str | None = None) -> LookAlikes:
    """Return the former standards that a designation may be mixed up with, and the dimensions that differ.

    Args:
        designation: in a former standard (DIN 933 - M10x60) or in the ISO one; all are listed where it is left out.

    Raises:
        DesignationError, NotFoundError: it names no product. Others: see `boltwright.errors`.
    """
    return connection.get(LookAlikes, "/v1/look-alikes", designation=designation)
