"""What a verdict on a lot is made of: verdicts on characteristics, sampling, reasons."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ..values import Basis, Bounds


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
    #: Coated products: `before_coating` or `as_delivered`; None for a plain product.
    state: str | None = None
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
    #: None where they are not computed: readings in several blocks.
    outlying_pieces: tuple[int, ...] | None = ()
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
class NotLookedAt:
    """A characteristic that the verdict says nothing of, with why."""

    id: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Replay:
    """What replays the verdict; `request` is None where it is long: keep your own."""

    request_sha256: str
    request: Any = None
