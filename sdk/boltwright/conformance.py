"""POST /v1/conformance: judges a lot's readings against its specification. It changes nothing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from .conformance_summary import verdict_text
from .decoding import Result
from .readings import Column, Reading, written_column
from .transport import Connection
from .values import Basis, Bounds

LotVerdict = Literal["accept", "reject", "incomplete"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DecisionRule:
    """The rule as resolved, with the standard and edition behind it."""

    rule: str
    edition: str | None = None
    standard: str | None = None
    basis: Basis | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AcceptanceLimits:
    """Limits after the guard band, in the unit of the readings; `attainable` is False where nothing can conform."""

    min: float | None = None
    max: float | None = None
    unit: str | None = None
    attainable: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Statistics:
    """Statistics of the measured readings, in their unit; Cp and Cpk where they make sense."""

    mean: float
    standard_deviation: float | None = None
    min: float
    max: float
    cp: float | None = None
    cpk: float | None = None
    unit: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """With what and when a characteristic was measured, where the request said so (RFC 3339)."""

    instruments: tuple[str, ...] = ()
    measured_from: str | None = None
    measured_until: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CharacteristicVerdict:
    """What was found of one characteristic: conforming, nonconforming or undecided.

    `margin` is the least distance of a reading to its nearest limit, below 0 outside.
    """

    verdict: str
    limits: Bounds | None = None
    acceptance_limits: AcceptanceLimits | None = None
    allowed: tuple[Any, ...] = ()
    count: int
    nonconforming_count: int
    undecided_count: int
    nonconforming_pieces: tuple[int, ...] = ()
    nonconforming_pieces_truncated: bool = False
    statistics: Statistics | None = None
    margin: float | None = None
    outlying_pieces: tuple[int, ...] = ()
    risks: Mapping[str, Any] | None = None
    record: Record | None = None
    decision_rule: DecisionRule | None = None
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondSample:
    """A second sample that the plan or the purchaser allows: `sample_size` pieces from `first_piece` on."""

    first_piece: int
    sample_size: int
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupSampling:
    """The plan of one group of characteristics, and how many of its pieces did not conform."""

    sample_size: int | None = None
    acceptance_number: int
    nonconforming_pieces: int = 0
    plan: Any = None
    second_sample: SecondSample | None = None
    basis: Basis | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One reason of the verdict, a sentence with its clause."""

    code: str
    characteristic: str | None = None
    group: str | None = None
    detail: str
    basis: Basis | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Replay:
    """What replays the verdict; `request` is None where it is long: keep your own."""

    request_sha256: str
    request: Any = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Conformance(Result):
    """The verdict on a lot: `accept`, `reject` or `incomplete`, with its reasons, the heaviest first."""

    designation: str
    verdict: LotVerdict
    lot_size: int | None = None
    characteristics: Mapping[str, CharacteristicVerdict]
    missing: tuple[str, ...]
    dropped: Mapping[str, Any] = field(default_factory=dict)
    sampling: Mapping[str, GroupSampling] = field(default_factory=dict)
    decision_rule: DecisionRule
    fracture_rule: str = "standard"
    reasons: tuple[Reason, ...]
    notices: tuple[str, ...] = ()
    replay: Replay | None = None

    def summary(self) -> str:
        """Return verdict, characteristics, reasons and notices as aligned text."""
        return verdict_text(self)


def conformance(
    connection: Connection,
    designation: str,
    readings: Mapping[str, Column | Iterable[Reading] | Mapping[str, Any]],
    *,
    lot_size: int | None = None,
    decision_rule: str | Mapping[str, str] | None = None,
    fracture_rule: str | None = None,
    sampling: Mapping[str, Any] | None = None,
    sampling_destructive: Mapping[str, Any] | None = None,
    requirements: Mapping[str, Mapping[str, Any] | None] | None = None,
    dropped: Mapping[str, Mapping[str, str]] | None = None,
    risks: bool | None = None,
    retest: Mapping[str, Any] | None = None,
) -> Conformance:
    """Judge the readings of a lot.

    Args:
        designation: what the lot is, as `ISO 4014 - M10x60 - 8.8`.
        readings: by characteristic id, a list of readings or a `Column`; arrays with `tolist()` are read too.
        lot_size: pieces in the lot.
        decision_rule: simple, guarded, absolute or rounded, or a mapping with rule and edition.
        fracture_rule: `thread_only` where the purchaser accepts only a break in the thread.
        sampling, sampling_destructive: sampling plans.
        requirements: the purchaser's limits by id; None drops a characteristic, with its reason in `dropped`.
        risks: asks for the probability of conformity and the risks of a wrong decision.
        retest: the purchaser's agreement to a retest of twice the number: `agreed_in` and `first_sample`.

    Raises:
        ReadingsError, MemberError, UnitError: readings that cannot be judged. Others: see `boltwright.errors`.
        ValueError: NaN or Infinity among the readings; a piece that was not measured is None.
    """
    body = {
        "designation": designation,
        "lot_size": lot_size,
        "decision_rule": decision_rule,
        "fracture_rule": fracture_rule,
        "sampling": sampling,
        "sampling_destructive": sampling_destructive,
        "requirements": requirements,
        "dropped": dropped,
        "risks": risks,
        "retest": retest,
        "readings": {id: written_column(id, given) for id, given in readings.items()},
    }
    return connection.post(Conformance, "/v1/conformance", body)
