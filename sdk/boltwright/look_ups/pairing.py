"""GET /v1/pairing: which nut classes, styles and grades hold a bolt."""

from __future__ import annotations

from dataclasses import dataclass

from ..decoding import Result
from ..transport import Connection
from ..values import Basis, Bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class Nut:
    """A nut beside the bolt. `style` is that of ISO 898-2 (0 thin, 1 regular, 2 high), `form` that of inch nuts.

    `holds`: the bolt breaks before the thread strips. `warnings` are the known exceptions.
    """

    nut: str
    standard: str
    edition: str
    style: int | None = None
    form: str | None = None
    holds: bool
    reason: str = ""
    proof_load: Bounds | None = None
    warnings: tuple[str, ...] = ()
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadPair:
    """Tolerance positions of a galvanized bolt and a nut."""

    external: str
    internal: str
    may_mate: bool
    reason: str = ""
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class Pairing(Result):
    """Every nut of the standards that go with the bolt, those that hold first."""

    bolt: str
    thread: str
    property_class: str
    tensile_load: Bounds | None = None
    nuts: tuple[Nut, ...]
    threads: tuple[ThreadPair, ...] = ()
    notices: tuple[str, ...] = ()

    @property
    def holding(self) -> tuple[Nut, ...]:
        """The nuts that hold the bolt."""
        return tuple(nut for nut in self.nuts if nut.holds)


def pairing(connection: Connection, bolt: str) -> Pairing:
    """Return which nuts hold a bolt.

    Args:
        bolt: a product, `ISO 4014 - M10x60 - 8.8`, or thread and class, `M10 - 8.8` or `1/2-13 - SAE J429 5`.

    Raises:
        DesignationError: the text names no bolt. NotFoundError: no such size or class. Others: see `boltwright.errors`.
    """
    return connection.get(Pairing, "/v1/pairing", bolt=bolt)
