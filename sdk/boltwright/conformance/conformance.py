"""POST /v1/conformance: judges a lot's readings against its specification. It changes nothing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from ..decoding import Result
from ..look_ups.mechanical_minimums import Marking
from ..readings import Column, Reading, written_column
from ..tables import listed, sections, words
from ..transport import Connection
from ..values import Deviation, cited
from .summary import characteristics_table
from .verdicts import CharacteristicVerdict, DecisionRule, GroupSampling, NotLookedAt, Reason, Replay

LotVerdict = Literal["accept", "reject", "incomplete"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Conformance(Result):
    """The verdict on a lot: `accept`, `reject` or `incomplete`, with its reasons, the heaviest first."""

    designation: str
    verdict: LotVerdict
    lot_size: int | None = None
    characteristics: Mapping[str, CharacteristicVerdict]
    missing: tuple[str, ...]
    #: The lot by its standard alone, without the purchaser's requirements; None: not known.
    conforms_to_standard: bool | None = None
    deviations: tuple[Deviation, ...] = ()
    not_looked_at: tuple[NotLookedAt, ...] = ()
    dropped: Mapping[str, Any] = field(default_factory=dict)
    sampling: Mapping[str, GroupSampling] = field(default_factory=dict)
    decision_rule: DecisionRule
    fracture_rule: str = "standard"
    reasons: tuple[Reason, ...]
    notices: tuple[str, ...] = ()
    #: Only of a lot that is accepted and conforms to its standard.
    marking: tuple[Marking, ...] = ()
    package_marking: Marking | None = None
    replay: Replay | None = None

    def summary(self) -> str:
        """Return verdict, characteristics, reasons and notices as aligned text."""
        rule = self.decision_rule
        by = f", {cited(rule.standard, rule.edition)}" if rule.standard and rule.edition else ""
        size = f", lot of {self.lot_size}" if self.lot_size else ""
        return sections(
            f"{self.designation}{size}{self._judged()}\nVerdict: {self._verdict()}   (decision rule {rule.rule}{by})",
            characteristics_table(self.characteristics),
            ("Reasons", listed(reason.detail for reason in self.reasons)),
            ("To note", listed(self.notices)),
            ("Not looked at", listed(f"{words(one.id)}: {one.why}" for one in self.not_looked_at)),
        )

    def _judged(self) -> str:
        """How many pieces were judged and by which plan, where the lot is accepted."""
        judged = (one.detail for one in self.reasons if one.code == "pieces_judged")
        return "".join(f". {one}" for one in judged)

    def _verdict(self) -> str:
        by = " BY DEVIATION" if any(one.code == "accepted_by_deviation" for one in self.reasons) else ""
        return f"{self.verdict.upper()}{by}"


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
        requirements: the purchaser's limits by id, or `{"kind": "attribute"}`; None drops a characteristic.
        dropped: `{id: {"reason": ...}}` for each that is None; without a reason it is refused.
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
