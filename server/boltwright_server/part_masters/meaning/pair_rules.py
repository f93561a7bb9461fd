"""May two parts be used together? Thread, allowances for zinc, strength: the engines behind /v1/pairing are asked."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from ...coating.pairing import pairings
from ...mechanical import find_grade, mechanical_minimums
from ...mechanical.grade import Grade
from ...mechanical.pairing import NutPair, pairing
from ...quantities import Basis, Refusal
from ...quantities.keeper import remembered
from ...standards import rules
from ...threads import MetricSize, ToleranceClass
from .outline import Outline
from .room import tolerance_of

_REMEMBERED = 16_384
_BOTH_CUT = (
    "both threads are cut with an allowance for the zinc: bolt {bolt} and nut {nut}; only one of the two may be "
    "({named})"
)
_MAYBE_BOTH_CUT = (
    "the bolt is cut undersize ({bolt}); a galvanized nut without a mark is usually tapped oversize, and strips on it "
    "({named}): take a nut 6H and say so"
)
_NUT_IS_OPEN = (
    "the bolt is galvanized at position {position}; nothing says whether the galvanized nut is tapped oversize, as it "
    "must be then (marked Z or X, {named})"
)
#: Hardness of a washer in HV -> greatest first number of the bolt class; ISO 7089:2000, scope.
_WASHERS = {"200 HV": 8, "300 HV": 10}


class Verdict(NamedTuple):
    """The code of a finding and why; `ALLOWED` has none."""

    code: str
    reason: str
    basis: Basis | None = None
    #: The pair is usual; only the loads of the standard end before its size.
    mild: bool = False


ALLOWED = Verdict("", "")


def _same_thread() -> Basis:
    return rules("ISO 898-2").practice("mating threads")


def _never(reason: str, basis: Basis) -> Verdict:
    return Verdict("pair-not-permitted", reason, basis)


def _open(reason: str, basis: Basis | None = None) -> Verdict:
    return Verdict("pair-not-judged", reason, basis)


@remembered(_REMEMBERED)
def judged(one: Outline, other: Outline) -> Verdict:
    """Say whether two parts may be used together, either way round."""
    parts = {part.kind: part for part in (one, other)}
    bolt, nut, washer = parts.get("bolt"), parts.get("nut"), parts.get("washer")
    if washer is not None and len(parts) == 2:
        return _with_washer(bolt or nut, washer)
    if bolt is None or nut is None:
        kinds = " and a ".join(sorted(part.kind if part.member else part.name for part in (one, other)))
        return _open(f"a {kinds}: only a bolt and a nut, or a washer with one of them, are judged")
    if bolt.size != nut.size:
        return _never(f"the bolt has thread {bolt.size.designation}, the nut {nut.size.designation}", _same_thread())
    of_thread = _by_allowance(bolt, nut)
    return of_thread if of_thread.code == "pair-not-permitted" else _first(of_thread, _by_strength(bolt, nut))


def _first(of_thread: Verdict, of_strength: Verdict) -> Verdict:
    """What is forbidden weighs more than what is open."""
    return of_strength if of_thread is ALLOWED or of_strength.code == "pair-not-permitted" else of_thread


def _with_washer(part: Outline | None, washer: Outline) -> Verdict:
    """A washer is for one nominal diameter; of the classes of ISO 7089 its scope says which bolts they are for."""
    if part is None:
        return _open("nothing says what the washer is used with")
    if isinstance(part.size, MetricSize) != isinstance(washer.size, MetricSize) or part.size.d != washer.size.d:
        return _never(
            f"the washer is for {washer.size.designation}, the {part.kind} is {part.size.designation}", _same_thread()
        )
    most = _WASHERS.get(washer.property_class or "")
    number = (part.property_class or "").removeprefix("0").split(".")[0].rstrip("US")
    if most is not None and number.isdigit() and int(number) > most:
        scope = rules("ISO 7089").practice("scope")
        told = f"a washer of {washer.property_class} is meant for classes up to {most}, not {part.property_class}"
        return _open(f"{told} ({scope.cited}, from memory)", scope)
    return ALLOWED


def _galvanized(part: Outline) -> bool:
    return part.coating is not None and part.coating.process == "hot dip galvanizing"


def _by_allowance(bolt: Outline, nut: Outline) -> Verdict:
    """ISO 10684:2004: one of the two threads has the room for the zinc, never both and never none."""
    allowances = rules("ISO 10684").clause("clause on pairing", "tabulated")
    named = allowances.cited
    if bolt.mark and nut.mark:
        return _never(_BOTH_CUT.format(bolt=bolt.mark, nut=nut.mark, named=named), allowances)
    if not isinstance(bolt.size, MetricSize) or not (_galvanized(bolt) or _galvanized(nut)):
        return ALLOWED
    external, internal = _position(bolt), _position(nut)
    if _galvanized(nut) and not nut.mark:
        if external == "az":
            return _never(_MAYBE_BOTH_CUT.format(bolt=bolt.mark, named=named), allowances)
        told = _NUT_IS_OPEN.format(position=external, named=named)
        return _open(told, allowances) if _galvanized(bolt) else ALLOWED
    if external is None:
        return _open(f"the thread of the galvanized bolt is not known: the tolerance of {bolt.name} is not held")
    tolerance = ToleranceClass.parse(tolerance_of(bolt) or "")
    rows = [row for row in pairings(tolerance) if row.internal == (internal or "H")]
    if _galvanized(bolt) and rows and not rows[0].may_mate:
        return _never(f"bolt {tolerance.designation} and nut {internal or 'H'}: {rows[0].reason}", rows[0].basis)
    return ALLOWED


def _position(part: Outline) -> str | None:
    """The tolerance position of the thread; None where it is not held."""
    found = tolerance_of(part)
    return None if found is None else ToleranceClass.parse(found).pitch_position


def _by_strength(bolt: Outline, nut: Outline) -> Verdict:
    """ISO 898-2:2012, Table 2; ISO 3506-2; SAE J429: the nut must be listed for the bolt, or prove at least as much."""
    if bolt.property_class is None or nut.property_class is None:
        missing = "bolt" if bolt.property_class is None else "nut"
        return _open(f"no class of the {missing} is certain: whether the nut holds the bolt is not judged")
    try:
        of_bolt = find_grade(bolt.strength_class or bolt.property_class, "external")
        of_nut = find_grade(nut.property_class, "internal")
        found = pairing(bolt.size, of_bolt)
    except Refusal as refusal:
        why = refusal.detail.partition(": ")[0]
        return _open(f"whether the nut holds the bolt is not judged: {why}")
    if not found.nuts and _rank(of_nut) >= _rank(of_bolt):
        return _open(f"{'; '.join(found.notices)}: there the pair is as agreed")._replace(mild=True)
    listed = [one for one in found.nuts if one.nut == of_nut.name]
    if not listed:
        return _unlisted(bolt, nut, of_bolt, of_nut)
    return _listed(nut, found.nuts, listed, of_bolt)


def _rank(grade: Grade) -> int:
    """The number of a nut class, the first of a bolt class; 0 for a thin nut, and for what has no number."""
    first = grade.code.split(".")[0]
    return int(first) if first.isdigit() and not first.startswith("0") else 0


def _listed(nut: Outline, nuts: Sequence[NutPair], listed: list[NutPair], bolt: Grade) -> Verdict:
    """A nut of its form holds or not; of a nut that is not held only the class can speak against it."""
    fitting = [one for one in listed if _same_form(one, nut, nut.property_class or "")] if _form_counts(nut) else listed
    holding = [one for one in fitting if one.holds]
    if fitting and not holding:
        lowest = next((one.nut for one in nuts if one.holds and _same_form(one, nut, one.nut)), None)
        needed = "" if lowest is None else f"; {lowest} holds it"
        reason = f"nut {nut.property_class} does not hold a bolt {bolt.name}: {fitting[0].reason}{needed}"
        return _never(reason, fitting[0].basis)
    if not _form_counts(nut):
        return _open(f"the class of the nut suits the bolt; height and loads of {nut.name} are not held, or its own")
    if not fitting:
        return _open(f"{listed[0].standard} has no nut {nut.property_class} of that height and shape in this size")
    return ALLOWED


def _form_counts(nut: Outline) -> bool:
    """Whether height and loads of a nut are those of the standard of its class."""
    return nut.held is not None and not nut.held.own_strength


def _same_form(pair: NutPair, nut: Outline, nut_class: str) -> bool:
    """Whether the pair is of nuts of that height and shape; of a nut that is not held nothing says which it has."""
    if nut.held is None or nut.held.own_strength:
        return True
    style, form = nut.held.nut_style(nut_class), nut.held.options.form or None
    return pair.style in (None, style) and pair.form in (None, form)


def _unlisted(bolt: Outline, nut: Outline, of_bolt: Grade, of_nut: Grade) -> Verdict:
    """No standard pairs the two: carbon steel with stainless, A2 with A4, a metric class with an inch grade."""
    loads = [_load(bolt, of_bolt, "tensile_load"), _load(nut, of_nut, "proof_load")]
    beside = "" if None in loads else f"; tensile load of the bolt {loads[0]}, proof load of the nut {loads[1]}"
    return _open(f"no standard that is held pairs a bolt {of_bolt.name} with a nut {of_nut.name}{beside}")


def _load(part: Outline, grade: Grade, id: str) -> str | None:
    try:
        bounds = mechanical_minimums(part.size, grade, part.member, style=part.style).loads.get(id)
    except Refusal:
        return None
    return None if bounds is None or bounds.min is None else f"{bounds.min} {bounds.unit}"
