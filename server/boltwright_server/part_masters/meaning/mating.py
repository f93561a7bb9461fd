"""Parts of a set: may they be used together? What cannot be judged is said."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ...quantities.keeper import remembered
from ...standards import rules
from .findings import Finding
from .outline import Outline
from .pair_rules import ALLOWED, Verdict, judged
from .reading import read
from .requirement import LEFT, Requirement, resolve

_REMEMBERED = 16_384
#: Several mates in one cell: `ISO 4032 M10 8; ISO 7089 10 200 HV`. Behind a comma only a standard begins another.
_BETWEEN = re.compile(r"[;&+\n]|,\s*(?=(?:DIN|EN|ISO|ASME|BS|UNI|UNE|NF)\b)", re.IGNORECASE)
_OTHER_HAND = "one of the two has a left-hand thread, the other a right-hand one"
_NO_THREAD = Verdict("pair-not-judged", "of one of the two no thread is certain")


def _other_hand() -> Verdict:
    return Verdict("pair-not-permitted", _OTHER_HAND, rules("ISO 898-2").practice("mating threads"))


def mates(text: str) -> list[str]:
    """Return the designations of a cell, one for each part that the row is sold with."""
    return [one for one in map(str.strip, _BETWEEN.split(text)) if one]


def check_mate(part: Requirement, text: str, said: list[Finding]) -> None:
    """Add a finding for each part of a set that must not be paired with the row, or of which that is not known."""
    said.extend(finding for one in mates(text) if (finding := _check_one(part, one)) is not None)


def with_oversize_nut(text: str) -> bool:
    """Say whether a nut that is cut oversize for the zinc is among the mates."""
    return any(one.mark and one.kind == "nut" for mate in mates(text) for one in outlines_of(_meant(mate)))


def outlines_of(found: Requirement) -> tuple[Outline, ...]:
    """Return what a row may mean: nothing where it leaves thread or product open, no class where that is open."""
    outlines, reading = found.meant.resolved.outlines, found.reading
    if "also" in reading.features:
        return ()
    if not reading.unsettled:
        return outlines
    open_members = {one.member for one in reading.unsettled}
    if open_members - {"property_class", "length"}:
        return ()
    return tuple(one.without_class() for one in outlines) if "property_class" in open_members else outlines


def _check_one(part: Requirement, text: str) -> Finding | None:
    mate = _meant(text)
    if not _names_a_part(mate):
        detail = f"mates_with {text[:60]!r} is no designation that is held"
        return Finding("value-unreadable", "mates_with", text[:60], None, detail)
    verdict = _other_hand() if _hand(part) != _hand(mate) else _over_all(outlines_of(part), outlines_of(mate))
    if verdict is ALLOWED:
        return None
    return Finding(verdict.code, "mates_with", text[:60], None, verdict.reason, verdict.basis, mild=verdict.mild)


@remembered(_REMEMBERED)
def _meant(text: str) -> Requirement:
    """What a mate comes to; never changed by whoever gets it."""
    return resolve(read(text))


def _names_a_part(mate: Requirement) -> bool:
    """Whether a text names a product, if only one that is not held or one of several."""
    found = mate.reading
    return bool(
        mate.designation or mate.alternatives or outlines_of(mate) or found.standard or "hand" in found.features
    )


def _hand(found: Requirement) -> bool:
    return found.reading.features.get("hand") == LEFT


def _over_all(parts: tuple[Outline, ...], others: tuple[Outline, ...]) -> Verdict:
    """Hold everything that may be meant against everything: forbidden or allowed only where all of it is."""
    if not parts or not others:
        return _NO_THREAD
    return _together([judged(part, other) for part in parts for other in others])


def _together(verdicts: Iterable[Verdict]) -> Verdict:
    found = list(dict.fromkeys(verdicts))
    if len(found) == 1:
        return found[0]
    worst = next((one for one in found if one.code == "pair-not-permitted"), found[-1])
    if all(one.code == worst.code for one in found):
        return worst
    worst = next(one for one in found if one is not ALLOWED)
    return Verdict(
        "pair-not-judged", f"several products may be meant; of one of them holds: {worst.reason}", worst.basis
    )
