"""Coatings of part masters: embrittlement of hard fasteners, and coatings that thread, class or steel do not take."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from ...coating import Coating, class_not_galvanized, thread_not_galvanized
from ...coating.coating import Process
from ...coating.embrittlement import forbids, is_at_risk_in_inch, needs_baking, needs_measures
from ...mechanical import mechanical_minimums
from ...quantities import Basis, Refusal
from ...quantities.keeper import remembered
from ...standards import rules
from ...threads import Member, MetricSize, ThreadSize
from ..text.scanning.classes import AMBIGUOUS
from .findings import Finding
from .outline import Outline
from .room import coating_of_words, room

_REMEMBERED = 65_536
_STAINLESS = re.compile(r"[ACDF][1-8]-\d{2,3}")
_FLAKE: Process = "zinc flake"
_PLATED: Process = "electroplating"
_GALVANIZED: Process = "hot dip galvanizing"


def cautions(outlines: Sequence[Outline], coating: str, *, with_room: bool) -> tuple[Finding, ...]:
    """Return the cautions that the coating of a part asks for; `coating` is how the row names it.

    Where several products may be meant, one that not all of them ask for says of which it holds. `with_room`: a nut cut
    oversize among its mates has the room that the bolt does not have.
    """
    if not outlines:
        return _nothing_certain(coating)
    return agreed([(one.name, _cautions(one, coating, with_room)) for one in outlines])


def _nothing_certain(coating: str) -> tuple[Finding, ...]:
    if _process(None, coating) is None and not any(sign.isdigit() for sign in coating) and coating != "tZn":
        return ()
    return (not_judged(coating, f"no product is certain: what {coating} asks for is not judged"),)


def agreed(found: Sequence[tuple[str, tuple[Finding, ...]]]) -> tuple[Finding, ...]:
    """Return the findings of everything that may be meant, each once; what holds of some only says of which."""
    if len(found) == 1:
        return found[0][1]
    firsts: dict[tuple[str, int], Finding] = {}
    names: dict[tuple[str, int], list[str]] = {}
    for name, findings in found:
        counted: Counter[str] = Counter()
        for one in findings:
            key = (one.code, counted[one.code])
            counted[one.code] += 1
            firsts.setdefault(key, one)
            names.setdefault(key, []).append(name)
    return tuple(
        one
        if len(names[key]) == len(found)
        else one._replace(detail=f"if {' or '.join(names[key])} is meant: {one.detail}")
        for key, one in firsts.items()
    )


def not_judged(coating: str, why: str) -> Finding:
    """Return the finding of a check of a coating that cannot be made."""
    return Finding("coating-not-judged", "coating", coating, None, why)


@remembered(_REMEMBERED)
def _cautions(part: Outline, coating: str, with_room: bool) -> tuple[Finding, ...]:
    process = _process(part.coating, coating)
    if process is None:
        return ()
    found: list[Finding] = []
    stainless = part.property_class is not None and _STAINLESS.fullmatch(part.property_class) is not None
    if process != _FLAKE and part.kind != "washer" and not stainless:
        found.extend(_embrittlement(part, coating, process))
    if process == _GALVANIZED:
        found.extend(_not_galvanized(part))
    if part.coating is not None and not with_room:
        found.extend(room(part, part.coating))
    return tuple(found)


def thick(outlines: Sequence[Outline], coating: str, thickness: Decimal) -> tuple[Finding, ...]:
    """Return whether the thread has room for a coating whose thickness in um stands beside its name."""
    if not outlines:
        return (not_judged(coating, f"{coating} {thickness} um: no thread is certain, its room is not judged"),)
    process = _process(None, coating) or _process(outlines[0].coating, coating)
    if process is None:
        return (not_judged(coating, f"{coating} {thickness} um: the room that it needs is not known"),)
    worded = coating_of_words(coating, process, thickness)
    return agreed([(one.name, room(one, worded)) for one in outlines])


def _process(held: Coating | None, coating: str) -> Process | None:
    """Return the process of a coating, None of one that neither plates nor is a coat of zinc."""
    if held is not None:
        return held.process
    if coating.endswith(" plated") or coating in ("zinc nickel", AMBIGUOUS):
        return _PLATED
    return _FLAKE if coating == _FLAKE else None


def _not_galvanized(part: Outline) -> tuple[Finding, ...]:
    """Threads and classes that ISO 10684:2004 leaves out; the thread counts where there is one."""
    if (
        part.coating is None
        or not isinstance(part.size, MetricSize)
        or (part.product is not None and part.product.family.hardness_only)
    ):
        return ()
    told = [None if part.kind == "washer" else thread_not_galvanized(part.size)]
    if part.property_class is not None:
        told.append(class_not_galvanized(part.property_class))
    return tuple(
        Finding("coating-not-in-standard", "coating", part.coating.designation, None, one, part.coating.basis)
        for one in told
        if one is not None
    )


class _Hardest(NamedTuple):
    """The greatest specified hardness of a class."""

    value: Decimal
    scale: str
    basis: Basis


def _embrittlement(part: Outline, coating: str, process: Process) -> tuple[Finding, ...]:
    """ISO 4042:2018, clause 4.4; inch classes that have only a Rockwell hardness by ASTM F1941/F1941M (memory)."""
    name = part.property_class
    if name is None:
        return _class_is_open(part, coating)
    refused = _refused(name, coating, process)
    hardest = _hardest(part.size, part.strength_class or name, part.member, part.style, name)
    if refused or hardest is None:
        return refused or _unknown_hardness(part, name, coating)
    metric = hardest.scale == "HV"
    if not (needs_measures(hardest.value) if metric else is_at_risk_in_inch(hardest.value)):
        return ()
    mild = metric and not needs_baking(hardest.value)
    rule = "ISO 4042" if metric else "ASTM F1941 (from memory)"
    measures = "verification of the process, or tests," if mild else "the measures, baking among them,"
    detail = (
        f"class {name} may be as hard as {hardest.value} {hardest.scale}: acid cleaning and plating need {measures} "
        f"of {rule} against hydrogen embrittlement"
    )
    return (Finding("hydrogen-embrittlement", "coating", coating, None, detail, hardest.basis, mild=mild),)


def _refused(name: str, coating: str, process: Process) -> tuple[Finding, ...]:
    """A grade that must not be coated so: the standard refuses it, for the danger."""
    row = forbids(name, process)
    if row is None:
        return ()
    basis = row.basis("permitted")
    told = f"{basis.cited}: grade {row.key[0]} is not to have {process}"
    danger = f"{told}: hydrogen from acid cleaning and coating can break bolts of this strength under load"
    return (
        Finding("coating-not-in-standard", "coating", coating, None, told, basis),
        Finding("hydrogen-embrittlement", "coating", coating, None, danger, basis),
    )


def _class_is_open(part: Outline, coating: str) -> tuple[Finding, ...]:
    """Of a product that is held the class is missing, and said to be."""
    if part.held is not None:
        return ()
    return (not_judged(coating, f"no class is certain: whether {coating} calls for care with hydrogen is not judged"),)


def _unknown_hardness(part: Outline, name: str, coating: str) -> tuple[Finding, ...]:
    """No nut that is held is so hard, and classes without a maximum are soft; of an unknown one nobody can say."""
    if part.kind == "nut":
        return ()
    try:
        mechanical_minimums(part.size, part.strength_class or name, part.member, style=part.style)
    except Refusal:
        if part.held is not None and part.held.family.hardness_only:
            return ()
        why = f"no hardness is held of class {name}: whether {coating} calls for care with hydrogen is not judged"
        return (not_judged(coating, why),)
    return ()


@remembered(_REMEMBERED)
def _hardest(size: ThreadSize, strength: str, member: Member | None, style: int | None, name: str) -> _Hardest | None:
    """Return how hard a class may be; many products have it in common."""
    row = rules("ISO 898-5").table("table").find(name)
    if row is not None:
        return _Hardest(row.number("HV_max"), "HV", row.basis("HV_max"))
    try:
        found = mechanical_minimums(size, strength, member, style=style).properties
    except Refusal:
        return None
    for id, scale in (("hardness_vickers", "HV"), ("hardness_rockwell_c", "HRC")):
        bounds = found.get(id)
        if bounds is not None and bounds.max is not None:
            return _Hardest(bounds.max, scale, bounds.basis)
    return None
