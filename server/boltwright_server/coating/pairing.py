"""Which galvanized bolts and nuts may be mated, and which never.

ISO 10684:2004, methods A (oversize nut) and B (undersize bolt).
"""

from __future__ import annotations

from dataclasses import dataclass

from ..quantities import Basis, Contradiction
from ..standards import Row, rules
from ..threads import ToleranceClass

_REASONS = {
    "stripping": "never: an undersize bolt in an oversize nut strips under load",
    "undersize bolt": "the bolt thread is cut undersize and takes the zinc; the nut is standard (method B)",
    "oversize nut": "the bolt is standard before galvanizing; the nut is tapped oversize after it (method A)",
    "no room": "a galvanized bolt of this position has no room for the zinc in a standard nut and will not assemble",
}


@dataclass(frozen=True, slots=True)
class Pairing:
    """One pair of tolerance positions of a galvanized bolt and a nut."""

    external: str
    internal: str
    may_mate: bool
    reason: str
    basis: Basis


def pairings(tolerance: ToleranceClass) -> tuple[Pairing, ...]:
    """Return every pairing of the position of a galvanized thread that the standard speaks of."""
    column = 0 if tolerance.member == "external" else 1
    rows = rules("ISO 10684").table("pairing").rows
    return tuple(_pairing(row) for key, row in rows.items() if key[column] == tolerance.pitch_position)


def _pairing(row: Row) -> Pairing:
    external, internal = (str(part) for part in row.key)
    word = row.word("because")
    return Pairing(external, internal, row.word("may_mate") == "yes", _REASONS[word], row.basis("may_mate"))


def check_mating(external: ToleranceClass, internal: ToleranceClass, member: str = "designation") -> None:
    """Refuse the pair that must never be assembled: 6az in 6AZ or 6AX.

    ISO 10684:2004.

    Raises:
        Contradiction: an undersize bolt with an oversize nut.
    """
    table = rules("ISO 10684").table("pairing")
    row = table.find(external.pitch_position, internal.pitch_position)
    if row is not None and row.word("because") == "stripping":
        raise Contradiction(
            f"{internal.designation}/{external.designation}: a bolt of position az is never mated with a nut of "
            f"position AZ or AX, the threads strip ({table.standard.cited}); mate az with H or G, "
            "and AZ or AX with g or h",
            member=member,
        )
