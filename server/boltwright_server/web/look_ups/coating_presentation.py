"""What a coating means for a thread, as answers show it; several resources do."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated

from msgspec import Struct

from ...coating import CoatingLimits
from ..http.answers import BasisAnswer, BoundsAnswer, described, shown

_GROUPS = "local, length_up_to_5_d, length_up_to_10_d, length_up_to_15_d (batch average)"


class CoatingAnswer(Struct, kw_only=True):
    """A coating."""

    designation: Annotated[str, described("As its standard writes it.", "tZn")]
    process: Annotated[str, described("hot dip galvanizing, electroplating or zinc flake")]
    metal: str
    standard: str
    edition: str
    thickness: Annotated[dict[str, BoundsAnswer], described("local, batch_average or reference thickness in um")]
    basis: BasisAnswer


class CoatedState(Struct, kw_only=True, rename={"go": "go_gauge", "not_go": "not_go_gauge"}):
    """The thread in one state. `go_gauge` and `not_go_gauge` are designations for /v1/gauge-sizes."""

    state: Annotated[str, described("before coating, after coating, tapped after galvanizing")]
    limits: Annotated[
        dict[str, BoundsAnswer],
        described("Limits in this state; after coating the basic profile, open on the other side"),
    ]
    go: Annotated[str | None, described("null where no gauge is held.", "M10-6h")]
    not_go: str | None
    remark: str


class ThreadPairing(Struct, kw_only=True):
    """Tolerance positions of a galvanized bolt and a nut."""

    external: Annotated[str, described("Position of the bolt thread.", "az")]
    internal: Annotated[str, described("Position of the nut thread.", "AZ")]
    may_mate: bool
    reason: str
    basis: BasisAnswer


class CoatingFit(Struct):
    """Whether the coating fits into the thread."""

    fits: Annotated[bool | None, described("null: depends on the length")]
    by_group: dict[str, bool]
    detail: str


class Embrittlement(Struct, kw_only=True):
    """What is asked for against hydrogen embrittlement, by the hardness that the class permits."""

    specified_maximum_hardness: Decimal
    unit: str
    group: str
    measure: str
    basis: BasisAnswer


class CoatingMeaning(Struct, kw_only=True):
    """What a coating means for a thread. Without a coating: what its tolerance position has room for."""

    coating: CoatingAnswer | None
    fundamental_deviation: BoundsAnswer
    largest_thickness: Annotated[
        dict[str, BoundsAnswer], described(f"By the rule, in um: {_GROUPS}; inch threads: local, in inch")
    ]
    largest_nominal_thickness: Annotated[
        dict[str, BoundsAnswer],
        described(f"Printed, in um: {_GROUPS}; empty where the table has no such position"),
    ]
    length_group: str | None
    fit: CoatingFit | None
    states: list[CoatedState]
    pairings: list[ThreadPairing]
    reduced_loads: Annotated[
        dict[str, dict[str, BoundsAnswer]],
        described("By property class: loads of M8 and M10 that galvanizing reduces."),
    ]
    hydrogen_embrittlement: Embrittlement | None
    cautions: list[str]
    notices: list[str]


def coating_meaning(found: CoatingLimits, **members: str) -> dict[str, object]:
    """Return the members that a room of the coating, its states and its cautions have in an answer."""
    return {
        "fundamental_deviation": found.room.deviation,
        "largest_thickness": found.room.exact,
        "largest_nominal_thickness": found.room.nominal,
        "hydrogen_embrittlement": found.embrittlement,
        **members,
    }


def coating_limits_shown(found: CoatingLimits) -> CoatingMeaning:
    """Return what a coating means for a thread."""
    return shown(CoatingMeaning, found, **coating_meaning(found))
