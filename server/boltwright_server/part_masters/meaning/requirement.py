"""What a row asks for, resolved against the standards, with its canonical designation.

Part masters repeat themselves in everything but the length: whatever does not depend on it is resolved once.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from decimal import Decimal

from ...designations import ProductDesignation
from ...designations.sizes import length_text
from ...quantities.keeper import remembered
from ...standards import rules
from ..text.designated import named_grade
from ..text.lexicon import UNSAID
from ..text.scanned import Reading
from .candidates import Candidates, Wanted, candidates, kinds_by_standard
from .contradictions import contradictions
from .findings import Finding
from .requirement_findings import edition_findings, length_findings, withdrawn_findings
from .resolution import Meant, Resolved, Sized, meant, meant_of_other

_REMEMBERED = 65_536
#: Countersunk and button heads of these classes have a socket; slotted and recessed ones are softer (common practice).
_SOCKET_CLASSES = ("8.8", "10.9", "12.9", "08.8", "010.9", "012.9")
_LEFT_OVER_COSTS, _LEAST = 0.05, 0.3
LEFT, _OPEN = "left", 0.5
_STUD = "rod or stud"
_WORD = re.compile(r"[A-Z]{2}")
#: Left-hand threads bear the letters LH in their designation.


@dataclass(slots=True)
class Requirement:
    """A row resolved. Where the product is not certain `designation` is None and `alternatives` holds what it may be.

    `part` is the product; its length stands in `length`. `meant` is all of it that does not depend on the length.
    """

    reading: Reading
    meant: Meant
    findings: list[Finding]
    confidence: float
    designation: str | None = None
    part: ProductDesignation | None = None
    length: Decimal | None = None
    alternatives: list[str] = field(default_factory=list)


def resolve(reading: Reading) -> Requirement:
    """Resolve a reading: product, size, length, class; every doubt becomes a finding or an alternative."""
    length = None if reading.length is None else decimal_of(reading.length)
    meant = _several(reading, length) if len(reading.standards) > 1 else _meant(reading, length is not None)
    part = meant.resolved.part
    requirement = Requirement(reading, meant, [*meant.findings], meant.confidence, None, part, length)
    if meant.confidence == 0.0 and not meant.resolved.findings:
        requirement.findings = [_nothing_named(reading)]
    else:
        for name, year in reading.editions.items():
            requirement.findings.extend(edition_findings(name, year))
        if reading.grade is not None:
            requirement.findings.extend(withdrawn_findings(reading.grade))
        if reading.left_over:
            requirement.confidence = max(_LEAST, meant.confidence - _LEFT_OVER_COSTS * len(reading.left_over))
    requirement.findings.extend(contradictions(reading, meant.resolved.sized, _class_name(reading)))
    _take_length(requirement, length)
    unsettled = reading.unsettled or reading.features.get("hand") == LEFT or "also" in reading.features
    if unsettled and not any(one.code == "unreadable" for one in requirement.findings):
        _withhold(requirement)
    return requirement


def _withhold(requirement: Requirement) -> None:
    """Keep the designation back: it would not be what the text says, or only one of several things."""
    reading, named = requirement.reading, requirement.designation
    if any(one.member == "length" for one in reading.unsettled):
        requirement.findings = [one for one in requirement.findings if one.member != "length"]
    for one in reading.unsettled:
        requirement.findings.append(Finding(one.code, one.member, one.given, None, one.detail))
        if one.instead is not None and named is not None:
            requirement.alternatives = [named, named.replace(f" - {one.instead[0]}", f" - {one.instead[1]}")]
    also = reading.features.get("also")
    if also is not None:
        requirement.findings.append(_set_of(" or ".join(sorted(_kinds(reading))) or "part", also))
        requirement.alternatives = requirement.alternatives or [one for one in (named,) if one is not None]
    if reading.features.get("hand") == LEFT:
        requirement.findings.append(_left_hand(named))
        requirement.alternatives = []
    requirement.designation = requirement.part = None
    requirement.confidence = min(requirement.confidence, _OPEN)


def _set_of(one: str, other: str) -> Finding:
    detail = f"the text names a {one} and a {other}: these are two parts, each with a designation of its own"
    return Finding("requirement-missing", "description", f"{one}, {other}", None, detail)


def _left_hand(named: str | None) -> Finding:
    of_right = "" if named is None else f"; {named} would be the part with a right-hand thread"
    detail = f"the text says a left-hand thread: no product standard that is held has one, nothing is checked{of_right}"
    return Finding("left-hand-thread", "thread", "LH", None, detail, rules("ISO 965-1").practice("designation"))


def _take_length(requirement: Requirement, length: Decimal | None) -> None:
    found = requirement.meant.resolved
    if length is None:
        text = ""
    elif found.sized is not None and found.needs_length:
        text, findings = at_length(found.sized, requirement.reading.length or "")
        if findings:
            requirement.findings.extend(findings)
    else:
        text = str(length) if found.in_fractions is None else length_text(found.in_fractions, length)
    if found.before is not None:
        requirement.designation = found.before if found.after is None else f"{found.before}{text}{found.after}"
    if found.alternatives:
        requirement.alternatives = [
            before if after is None else f"{before}{text}{after}" for before, after in found.alternatives
        ]


@remembered(16_384)
def at_length(sized: Sized, text: str) -> tuple[str, tuple[Finding, ...]]:
    """Return a length as the designation of the product writes it, and what is wrong with it."""
    length = decimal_of(text)
    assert length is not None
    return length_text(sized.product, length), length_findings(sized.product, sized.size, length)


def _meant(reading: Reading, has_length: bool) -> Meant:
    features = reading.features
    named = reading.standard
    doubt = None
    if named is None:
        named = _rod(reading) if "other" in features else None
        if named is None and "other" in features:
            other = (features["other"], reading.system, reading.diameter, reading.pitch)
            return meant_of_other(*other, _class_name(reading), reading.coating, has_length)
        doubt = _doubt(reading)
    # One flat key: nested ones would be made and hashed for every row.
    offered = _offered(
        named, reading.system, reading.diameter, reading.pitch, has_length, *features, *features.values()
    )
    return meant(offered, _class_name(reading), reading.coating, has_length, doubt)


@remembered(_REMEMBERED)
def _offered(
    named: str | None, system: str | None, diameter: str | None, pitch: str | None, has_length: bool, *features: str
) -> Candidates:
    """Return what may be meant; `features` are their names, then as many values."""
    count = len(features) // 2
    said = dict(zip(features[:count], features[count:], strict=True))
    return candidates(
        Wanted(
            named,
            said.get("kind", "bolt" if has_length and named is None else UNSAID),
            said.get("drive", UNSAID),
            said.get("form", UNSAID),
            said.get("variant", UNSAID),
            said.get("thread_form", UNSAID),
            said.get("noun", UNSAID),
            system,
            diameter,
            pitch,
        )
    )


def _rod(reading: Reading) -> str | None:
    """A rod threaded over its whole length needs no product standard; a stud may be another thing."""
    other = reading.features.get("other")
    whole = other == "threaded rod" or (other == _STUD and reading.features.get("thread_form") == "full")
    if not whole and not _flange_stud(reading):
        return None
    return "inch threaded rod" if reading.system == "inch" else "threaded rod"


def _flange_stud(reading: Reading) -> bool:
    """Studs of ASTM A193 for flanges are usually threaded over their whole length (common practice)."""
    return reading.features.get("other") == _STUD and (reading.grade or "").startswith("ASTM A193")


def _doubt(reading: Reading) -> str | None:
    """What may make it another product than the words say, where no standard is named."""
    features = reading.features
    if _rod(reading) is not None:
        ends = _flange_stud(reading) and features.get("thread_form") != "full"
        return "nothing says that the stud is threaded over its whole length" if ends else None
    strange = reading.doubt
    if strange is None and features.keys().isdisjoint(("kind", "drive", "form")):
        strange = next((one for one in reading.left_over if _WORD.search(one) and one.isalpha()), None)
    if strange is not None:
        return f"{strange} is not understood"
    slotted_too = features.get("form") in ("countersunk", "button") and "drive" not in features
    open_drive = reading.property_class not in _SOCKET_CLASSES or any(map(_WORD.search, reading.left_over))
    if slotted_too and reading.system == "metric" and open_drive:
        return "no word says which drive the head has"
    if features.get("variant") == "nonmetallic" and features.get("kind") in ("bolt", "washer"):
        return "the material is not steel"
    return None


def _several(reading: Reading, length: Decimal | None) -> Meant:
    """More than one standard is named, `DIN 931 / ISO 4014`: which is meant is not certain, each is an alternative."""
    several = [_meant(_of_standard(reading, name), length is not None).resolved for name in reading.standards]
    alternatives: list[tuple[str, str | None]] = []
    findings: dict[Finding, None] = {}
    for one in several:
        alternatives += [(one.before, one.after)] if one.before is not None else [] if one.part else one.alternatives
        findings |= dict.fromkeys(one.findings)
    names = " or ".join(reading.standards)
    detail = f"several standards are named: {names}; which of them is meant?"
    findings[Finding("requirement-missing", "standard", names, None, detail)] = None
    outlines = tuple(dict.fromkeys(outline for one in several for outline in one.outlines))
    found = Resolved(
        *(None, None, None, tuple(dict.fromkeys(alternatives)), True, tuple(findings), 1 / len(several)),
        outlines=outlines,
    )
    return Meant(found, reading.coating)


def _of_standard(reading: Reading, name: str) -> Reading:
    return replace(reading, standard=name, standards=[name])


def _nothing_named(reading: Reading) -> Finding:
    other = reading.features.get("other")
    if other is not None:
        detail = f"the words name a product of which no standard is held: {other}"
        return Finding("unreadable", "description", other, None, detail)
    if reading.diameter is None:
        words = " ".join(reading.left_over[:5]) or None
        return Finding("unreadable", "description", words, None, "nothing in the row names a product that is held")
    if "form" in reading.features:
        detail = "no standard that is held has the product of these words in that size: name the product standard"
    else:
        detail = "a size, but no word that says which product: name the product standard"
    return Finding("requirement-missing", "standard", None, None, detail)


def _kinds(reading: Reading) -> frozenset[str]:
    """What the named standard is, or else the words."""
    said = frozenset((reading.features.get("kind", ""),))
    return said if reading.standard is None else kinds_by_standard().get(reading.standard, said)


def _class_name(reading: Reading) -> str | None:
    """The class as the standards write it; an inch grade carries its standard."""
    grade = reading.grade or reading.property_class
    if reading.hardness is not None and (grade is None or "washer" in _kinds(reading)):
        return f"{reading.hardness} HV"
    if grade is not None and len(grade) == 3 and grade.isdigit() and "washer" in _kinds(reading):
        return f"{grade} HV"
    if grade is None or reading.system != "inch" or grade.startswith(("SAE", "ASTM")):
        return grade
    member = "internal" if "nut" in _kinds(reading) else "external"
    name = f"SAE {'J995' if member == 'internal' else 'J429'} {grade}"
    # `5` is a grade of an inch nut, and no class of ISO 898-2; `8.8` and `A2-70` are what they are.
    return grade if named_grade(name, member) is None and named_grade(grade, member) is not None else name


@remembered(_REMEMBERED)
def decimal_of(text: str) -> Decimal | None:
    """Return a length; `1 1/2`, `1-1/2` and `3/4` are inches. None where the text is no number."""
    total = Decimal(0)
    parts = text.replace(",", ".").replace("-", " ").split()
    if not parts:
        return None
    try:
        for part in parts:
            numerator, _, denominator = part.partition("/")
            total += Decimal(numerator) / Decimal(denominator) if denominator else Decimal(numerator)
    except ArithmeticError:
        return None
    if not total.is_finite() or abs(total.adjusted()) > 6:
        return None
    total = total.normalize()
    return total.quantize(Decimal(1)) if total == total.to_integral_value() else total
