"""GET /v1/standards: which standards the service holds, and how their tables were checked."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..decoding import Result
from ..transport import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A printed table; `cells_by_check` counts its cells by how they were checked."""

    file: str = ""
    printed_as: str = ""
    content: str = ""
    unit: str = ""
    checked: str
    rows: int = 0
    cells_by_check: Mapping[str, int] = field(default_factory=dict)
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class InForce:
    """The edition in force as far as known, None where the standard is withdrawn; `checked` says how it is known."""

    edition: str | None = None
    checked: str = ""
    remark: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Standard:
    """A standard in one edition. `current`: it answers where no edition is named; `own`: it is a plant's own.

    `in_force` names the edition in force as far as known; the figures are those of `edition` all the same.
    """

    id: str
    title: str
    edition: str
    family: str = ""
    current: bool = True
    in_force: InForce | None = None
    own: bool = False
    note: str = ""
    tables: tuple[Table, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Standards(Result):
    """All standards held."""

    standards: tuple[Standard, ...]


def standards(connection: Connection) -> Standards:
    """Return the standards that the service holds.

    Raises:
        Error: see `boltwright.errors`.
    """
    return connection.get(Standards, "/v1/standards")
