"""GET /v1/coating-limits: what a coating means for a thread."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ..decoding import Result
from ..transport import Connection
from ..values import Basis, Bounds


@dataclass(frozen=True, slots=True, kw_only=True)
class Coating:
    """A coating that a standard designates; `thickness` in um by id: local, batch_average or reference."""

    designation: str
    process: str
    metal: str = ""
    standard: str
    edition: str
    thickness: Mapping[str, Bounds] = field(default_factory=dict)
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatingFit:
    """Whether the coating has room. `fits` is None where the length would be needed to say so."""

    fits: bool | None
    by_group: Mapping[str, bool] = field(default_factory=dict)
    detail: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatingState:
    """The thread before or after coating; the gauges are designations for `gauge_sizes`."""

    state: str
    limits: Mapping[str, Bounds] = field(default_factory=dict)
    go_gauge: str | None = None
    not_go_gauge: str | None = None
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadPairing:
    """Tolerance positions of a galvanized bolt and a nut, and whether they may be mated."""

    external: str
    internal: str
    may_mate: bool
    reason: str = ""
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class HydrogenEmbrittlement:
    """Group by the specified maximum hardness, and the measure that goes with it."""

    specified_maximum_hardness: float
    unit: str
    group: str
    measure: str
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatingLimits(Result):
    """What a coating means for a thread; without a coating, what its tolerance position has room for.

    `largest_thickness` and `largest_nominal_thickness` in um by length group: local, length_up_to_5_d,
    length_up_to_10_d, length_up_to_15_d; of inch threads in inch, `local` only. `reduced_loads` by property class.
    """

    designation: str
    member: str
    tolerance_class: str
    coating: Coating | None = None
    fundamental_deviation: Bounds
    largest_thickness: Mapping[str, Bounds] = field(default_factory=dict)
    largest_nominal_thickness: Mapping[str, Bounds] = field(default_factory=dict)
    length_group: str | None = None
    fit: CoatingFit | None = None
    states: tuple[CoatingState, ...] = ()
    pairings: tuple[ThreadPairing, ...] = ()
    reduced_loads: Mapping[str, Mapping[str, Bounds]] = field(default_factory=dict)
    hydrogen_embrittlement: HydrogenEmbrittlement | None = None
    cautions: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()


def coating_limits(
    connection: Connection,
    designation: str,
    *,
    coating: str | None = None,
    length: float | str | None = None,
    property_class: str | None = None,
) -> CoatingLimits:
    """Return what a coating means for a thread such as M10-6g, or a product such as ISO 4014 - M10x60 - 8.8 - tZn.

    Args:
        designation: a thread with its tolerance class, or a product.
        coating: tZn, Fe/Zn8, A3L, flZn-480h ...; not needed where the designation names it.
        length: nominal length in mm, which chooses the length group.
        property_class: for loads and hydrogen embrittlement.

    Raises:
        NotFoundError: no such size or coating. MemberError: members that contradict each other. Others: see
            `boltwright.errors`.
    """
    return connection.get(
        CoatingLimits,
        "/v1/coating-limits",
        designation=designation,
        coating=coating,
        length=length,
        property_class=property_class,
    )
