"""What the answer to a judgement holds."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Annotated, Any

from msgspec import UNSET, Meta, Struct, UnsetType

from ..http.answers import Answer, BasisAnswer, BoundsAnswer, described
from ..look_ups.mechanical_minimums import MarkAnswer


class LimitAnswer(Struct, kw_only=True):
    """Bounds, scales of a hardness or what is allowed, and whether it is mandatory."""

    mandatory: bool
    scales: dict[str, BoundsAnswer] | UnsetType = UNSET
    symbol: str | UnsetType = UNSET
    min: Decimal | UnsetType | None = UNSET
    max: Decimal | UnsetType | None = UNSET
    nominal: Decimal | UnsetType | None = UNSET
    unit: str | UnsetType = UNSET
    basis: BasisAnswer | UnsetType = UNSET
    allowed: list[Any] | UnsetType = UNSET


class DeviationAnswer(Struct):
    """Where the purchaser asks for less than the standard."""

    id: str
    standard_limit: LimitAnswer
    used_limit: Annotated[LimitAnswer | None, described("null where it was dropped.")]
    detail: str
    basis: BasisAnswer


class DroppedAnswer(Struct):
    """Why the purchaser drops a characteristic."""

    reason: str


class NotLookedAt(Struct):
    """A characteristic that the verdict says nothing of, with why."""

    id: str
    why: str


class RuleAnswer(Struct, kw_only=True):
    """A decision rule as resolved, with the standard and edition behind it."""

    rule: str
    edition: str
    standard: str
    operator: str
    basis: BasisAnswer


class AcceptanceLimits(Struct):
    """Limits after the guard band, not rounded; both null where conformity cannot be proved at all."""

    min: float | None
    max: float | None
    unit: str | None
    attainable: bool


class StatisticsAnswer(Struct, kw_only=True):
    """Of the readings, in their unit."""

    mean: float
    standard_deviation: float | None
    min: float
    max: float
    cp: float | None
    cpk: float | None
    unit: str | None


class RisksAnswer(Struct, kw_only=True):
    """JCGM 106 probabilities."""

    least_conformance_probability: float
    greatest_specific_consumer_risk: float | None
    greatest_specific_producer_risk: float | None
    global_consumer_risk: float | None
    global_producer_risk: float | None
    conformance_probabilities: Annotated[list[float | None], described("By piece; null where it has no reading.")]


_TIME = Meta(extra_json_schema={"format": "date-time"})


class RecordAnswer(Struct):
    """With what and when a characteristic was measured, where the request says so."""

    instruments: list[str]
    measured_from: Annotated[str | None, _TIME]
    measured_until: Annotated[str | None, _TIME]


class CharacteristicVerdictAnswer(Struct, kw_only=True):
    """What was found of one characteristic."""

    verdict: Annotated[str, Meta(extra_json_schema={"enum": ["conforming", "nonconforming", "undecided"]})]
    state: Annotated[str | None, described("Coated products: before_coating or as_delivered; null for a plain one.")]
    limits: BoundsAnswer | None
    acceptance_limits: Annotated[AcceptanceLimits | None, described("After the guard band, not rounded.")]
    allowed: Annotated[list[Any], described("What meets a requirement that is not measured.")]
    count: int
    nonconforming_count: int
    undecided_count: int
    nonconforming_pieces: Sequence[int]
    nonconforming_pieces_truncated: bool
    statistics: StatisticsAnswer | None
    margin: Annotated[float | None, described("Least distance of a reading to its nearest limit; below 0 outside.")]
    outlying_pieces: Annotated[
        Sequence[int] | None,
        described("Flagged, never dropped; null where not computed: readings in several blocks."),
    ]
    risks: Annotated[RisksAnswer | None, described("On request: JCGM 106 probabilities.")]
    record: RecordAnswer | None
    decision_rule: Annotated[RuleAnswer | None, described("null for what is not measured.")]
    basis: BasisAnswer


class SecondSampleOfLot(Struct):
    """The pieces of a second sample."""

    first_piece: int
    sample_size: int
    basis: BasisAnswer


class GroupPlanAnswer(Struct, kw_only=True):
    """The sampling plan of a group of characteristics, and its nonconforming pieces."""

    sample_size: int | None
    acceptance_number: int
    nonconforming_pieces: int
    plan: Mapping[str, Any] | None
    second_sample: SecondSampleOfLot | None
    basis: BasisAnswer


class ReasonAnswer(Struct, kw_only=True):
    """A reason of the verdict, the heaviest first."""

    code: str
    characteristic: str | None
    group: str | None
    detail: str
    basis: BasisAnswer | None


class Replay(Struct):
    """What replays the verdict: same request and fingerprint, same bytes."""

    request_sha256: Annotated[
        str, described("Over the canonical JSON of the request, or over a stream as it was sent.")
    ]
    request: Annotated[dict[str, Any] | None, described("The canonical request; null where it is long: keep your own.")]


class Conformance(Answer, kw_only=True):
    """The verdict on a lot."""

    designation: str
    verdict: Annotated[str, Meta(extra_json_schema={"enum": ["accept", "reject", "incomplete"]})]
    lot_size: int | None
    characteristics: dict[str, CharacteristicVerdictAnswer]
    missing: Sequence[str]
    conforms_to_standard: Annotated[
        bool | None,
        described("The lot by its standard alone, without the purchaser's requirements; null: not known."),
    ]
    deviations: list[DeviationAnswer]
    not_looked_at: list[NotLookedAt]
    dropped: dict[str, DroppedAnswer]
    sampling: Annotated[
        dict[str, GroupPlanAnswer], described("By group: plan used, nonconforming pieces, acceptance number.")
    ]
    decision_rule: RuleAnswer
    fracture_rule: str
    reasons: list[ReasonAnswer]
    notices: Sequence[str]
    marking: Annotated[
        list[MarkAnswer],
        described("Only of a lot that is accepted and conforms to its standard; else empty."),
    ]
    package_marking: Annotated[MarkAnswer | None, described("As `marking`; else null.")]
    replay: Replay
