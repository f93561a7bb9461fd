"""GET /v1/units: the unit codes."""

from __future__ import annotations

from dataclasses import dataclass

from ..decoding import Result
from ..transport import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A unit code, what it measures, and its codes in UCUM and UN/ECE Recommendation 20 (hardness scales have none)."""

    code: str
    measures: str
    ucum: str | None = None
    unece_rec_20: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Units(Result):
    """All unit codes of the service."""

    units: tuple[Unit, ...]


def units(connection: Connection) -> Units:
    """Return the unit codes.

    Raises:
        Error: see `boltwright.errors`.
    """
    return connection.get(Units, "/v1/units")
