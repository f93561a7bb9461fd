"""What every thread system answers with when it is asked what a coating means."""

from __future__ import annotations

from dataclasses import dataclass

from ..quantities import Bounds
from ..threads import ThreadClass, ThreadSize
from .coating import Coating
from .embrittlement import Embrittlement
from .pairing import Pairing
from .room import Room
from .states import State


@dataclass(frozen=True, slots=True)
class Fit:
    """Whether the coating fits into the room. `fits` is None where the length would be needed to say so."""

    fits: bool | None
    by_group: dict[str, bool]
    detail: str


@dataclass(frozen=True, slots=True)
class CoatingLimits:
    """Everything that a coating, or the wish for one, means for one thread."""

    size: ThreadSize
    tolerance: ThreadClass
    coating: Coating | None
    room: Room
    length_group: str | None
    fit: Fit | None
    states: tuple[State, ...]
    pairings: tuple[Pairing, ...]
    reduced_loads: dict[str, dict[str, Bounds]]
    embrittlement: Embrittlement | None
    cautions: tuple[str, ...]
    notices: tuple[str, ...]
