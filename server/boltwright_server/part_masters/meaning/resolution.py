"""A meaning without its length, resolved to a product, a size and a class, or to what it may be; remembered."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import NamedTuple

from ...coating import Coating
from ...coating.marking import class_and_mark
from ...designations import ProductDesignation, parse_coating
from ...mechanical import find_grade
from ...products import Product, look_alike_in
from ...quantities import Refusal
from ...quantities.keeper import remembered
from ...threads import ThreadSize
from .candidates import Bare, Candidates
from .cautions import cautions
from .findings import Finding
from .outline import Outline, kind_by_class, kind_of
from .requirement_findings import class_findings, coating_findings, lists_class, size_findings
from .sizing import bare_size

_REMEMBERED = 65_536
#: Confidence of a reading by how the product was found.
_CONFIDENCE = {"standard": 1.0, "former": 0.9, "words": 0.8, "unknown": 0.3}
_CLASS_COSTS, _LEAST = 0.1, 0.3
_STRUCTURAL = "ASME B18.2.6 heavy hex structural bolt"
#: How the names of products end, and what they are.
_ENDINGS = {"bolt": "bolt", "screw": "bolt", "stud": "bolt", "nut": "nut", "washer": "washer"}
_OTHER_THREADS = ("tapping screw", "wood screw", "drive screw", "coach screw")
#: Stands where the length will stand in a remembered designation.
MARK_LENGTH = Decimal(7919)


@dataclass(frozen=True, eq=False, slots=True)
class Sized:
    """A product in one of its sizes. There is one of each, as of everything here that more is remembered of."""

    product: Product
    size: ThreadSize


@dataclass(frozen=True, eq=False, slots=True)
class Resolved:
    """A meaning resolved. `before` and `after` stand around the length; None: the product is not certain."""

    part: ProductDesignation | None
    before: str | None
    after: str | None
    alternatives: tuple[tuple[str, str | None], ...]
    needs_length: bool
    findings: tuple[Finding, ...]
    confidence: float
    #: A product whose lengths are written in fractions of an inch, or None.
    in_fractions: Product | None = None
    #: Of a part that is certain.
    sized: Sized | None = None
    #: Everything that it may be, as far as checks need it.
    outlines: tuple[Outline, ...] = ()


class Meant:
    """What the words of a row come to, without the length: resolved, and its coating as the row names it.

    There is one of each: what follows from it is remembered by its identity, which costs least to look up.
    """

    __slots__ = ("cautions", "confidence", "findings", "resolved")

    def __init__(self, resolved: Resolved, coating: str | None) -> None:
        """Take what is wrong with the coating too, and what it asks for."""
        self.resolved = resolved
        self.confidence = resolved.confidence
        self.findings = resolved.findings
        self.cautions: tuple[Finding, ...] = ()
        if coating is not None:
            self.findings += coating_findings(coating)
            self.cautions = cautions(resolved.outlines, coating, with_room=False)


_NOTHING = Resolved(None, None, None, (), False, (), 0.0)
NOTHING = Meant(_NOTHING, None)


class Asked(NamedTuple):
    """What a meaning says beside the product: a coating that is only named, `zinc plated`, changes nothing."""

    class_name: str | None
    coating: Coating | None
    has_length: bool
    doubt: str | None


@remembered(_REMEMBERED)
def meant(
    offered: Candidates, class_name: str | None, coating: str | None, has_length: bool, doubt: str | None
) -> Meant:
    """Return what candidates come to with a class, a coating, a length and a doubt why they may be another product."""
    return Meant(_resolved(offered, Asked(class_name, designated(coating), has_length, doubt)), coating)


@remembered(4096)
def meant_of_other(
    name: str,
    system: str | None,
    diameter: str | None,
    pitch: str | None,
    class_name: str | None,
    coating: str | None,
    has_length: bool,
) -> Meant:
    """Return what a product of which no standard is held, `carriage bolt`, comes to: what thread and class decide."""
    kind = next((kind for ending, kind in _ENDINGS.items() if name.endswith(ending)), None)
    if kind is None or name in _OTHER_THREADS:
        return NOTHING
    size = None if diameter is None else bare_size(system, diameter, pitch)
    if size is None or isinstance(size, Finding):
        return NOTHING
    offered = Candidates((), "unknown", None, (), Bare(name, size, kind))
    outlines = _outlines(offered, Asked(class_name, designated(coating), has_length, None))
    return Meant(replace(_NOTHING, outlines=outlines), coating)


@remembered(_REMEMBERED)
def the_only(product: Product, size: ThreadSize) -> Sized:
    """Return the one object of a product in a size."""
    return Sized(product, size)


@remembered(_REMEMBERED)
def _resolved(offered: Candidates, meaning: Asked) -> Resolved:
    outlines = _outlines(offered, meaning)
    return (
        replace(_resolved_parts(offered, meaning), outlines=outlines) if outlines else _resolved_parts(offered, meaning)
    )


def _resolved_parts(offered: Candidates, meaning: Asked) -> Resolved:
    confidence = _CONFIDENCE[offered.how]
    parts = _of_class(offered, meaning.class_name)
    if not parts and offered.size is not None:
        return _of_former_alone(meaning, offered, offered.size)
    if not parts and offered.unlisted is not None:
        return _as_written(meaning, offered, offered.unlisted, confidence)
    if not parts:
        findings = (*offered.findings, *_bare_class(offered, meaning.class_name))
        return replace(_NOTHING, findings=findings, confidence=confidence if findings else 0.0)
    if offered.how == "former":
        return _of_former(meaning, offered, parts, confidence)
    doubtful = len(parts) > 1 or meaning.doubt is not None
    found = _ambiguous(meaning, offered, parts) if doubtful else _certain(meaning, offered, parts[0], confidence)
    product = parts[0][0]
    return replace(found, in_fractions=product) if product.family.inch else found


def _outlines(offered: Candidates, meaning: Asked) -> tuple[Outline, ...]:
    """Return what each of the things that may be meant comes to, whatever its product standard."""
    name, mark = _class_and_mark(meaning)
    coating = meaning.coating
    if offered.bare is not None:
        standard, size, kind = offered.bare
        kind = kind_by_class(kind, name, meaning.has_length)
        return (Outline(size, kind, name, mark, coating, None, standard),)
    if not offered.parts and offered.unlisted is not None:
        product, size = offered.unlisted
        return (Outline(size, kind_of(product), name, mark, coating, None, f"{product.id} in {size.designation}"),)
    return tuple(
        Outline(
            size, kind_of(product), name, mark, coating, product, offered.former if offered.how == "former" else None
        )
        for product, size in _of_class(offered, meaning.class_name)
    )


def _bare_class(offered: Candidates, name: str | None) -> tuple[Finding, ...]:
    """A class that no standard has, of a product of which none is held."""
    if name is None or offered.bare is None or name.endswith(("HV", "H")):
        return ()
    try:
        find_grade(name)
    except Refusal as refusal:
        if name.startswith("ASTM "):
            return ()
        near = ", ".join(refusal.nearest) or None
        return (Finding("property-class-unknown", "property_class", name, near, refusal.detail),)
    return ()


def _of_class(offered: Candidates, name: str | None) -> tuple[tuple[Product, ThreadSize], ...]:
    """Where several products fit, those that list the class; all of them where none or no class is named."""
    if name is None or (len(offered.parts) < 2 and not offered.others):
        return _usual(offered.parts)
    listing = tuple(part for part in offered.parts if lists_class(part[0], part[1], name))
    others = tuple(part for part in offered.others if lists_class(part[0], part[1], name))
    return listing or others or _usual(offered.parts)


def _usual(parts: tuple[tuple[Product, ThreadSize], ...]) -> tuple[tuple[Product, ThreadSize], ...]:
    """Structural bolts are never named without their grade or the word."""
    return tuple(part for part in parts if part[0].id != _STRUCTURAL) or parts


@remembered(4096)
def designated(coating: str | None) -> Coating | None:
    """Return a coating that a standard designates, None for one that is only named: `zinc plated`."""
    if coating is None:
        return None
    try:
        return parse_coating(coating)
    except Refusal:
        return None


def _designation(meaning: Asked, part: tuple[Product, ThreadSize]) -> ProductDesignation:
    product, size = part
    length = MARK_LENGTH if product.has_length else None
    name, mark = _class_and_mark(meaning)
    return ProductDesignation(product, size, length, name, meaning.coating, mark)


def _class_and_mark(meaning: Asked) -> tuple[str | None, str]:
    name, coating = meaning.class_name, meaning.coating
    if name is not None and coating is not None and coating.designation == "tZn":
        return class_and_mark(name)
    return name, ""


def _around_length(designation: ProductDesignation) -> tuple[str, str | None]:
    """Return the canonical text before and after the length; None after it for a product without length."""
    before, mark, after = designation.canonical.partition(str(MARK_LENGTH))
    return before, after if mark else None


def _of_former(
    meaning: Asked, offered: Candidates, parts: tuple[tuple[Product, ThreadSize], ...], confidence: float
) -> Resolved:
    """A former national standard keeps its own name; what followed it stands among the alternatives."""
    product, size = parts[0]
    coating = meaning.coating
    words = (meaning.class_name, None if coating is None else coating.designation)
    after = "".join(f" - {word}" for word in words if word is not None)
    findings = (*offered.findings, *_unknown_class(meaning.class_name, parts))
    if product.has_length and not meaning.has_length:
        return Resolved(None, None, None, (), True, (*findings, _no_length()), confidence)
    before = f"{offered.former} - {size.designation}" + ("x" if product.has_length else after)
    after_length = after if product.has_length else None
    alternatives = tuple(_around_length(_designation(meaning, part)) for part in parts)
    return Resolved(None, before, after_length, alternatives, product.has_length, findings, confidence)


def _after_size(meaning: Asked) -> str:
    """Class and coating as a designation ends with them."""
    words = (meaning.class_name, None if meaning.coating is None else meaning.coating.designation)
    return "".join(f" - {word}" for word in words if word is not None)


def _of_former_alone(meaning: Asked, offered: Candidates, size: str) -> Resolved:
    """Nothing is held of it, nor of what replaced it: it keeps its own name, and nothing is checked."""
    before, after = f"{offered.former} - {size}", _after_size(meaning)
    needs_length = meaning.has_length
    before, rest = (f"{before}x", after) if needs_length else (f"{before}{after}", None)
    findings = (*offered.findings, *_bare_class(offered, meaning.class_name))
    return Resolved(None, before, rest, (), needs_length, findings, _CONFIDENCE["unknown"])


def _instead(meaning: Asked, former: str | None, size: ThreadSize) -> tuple[tuple[str, str | None], ...]:
    """The part in the standard that replaced a former one that is held itself."""
    found = None if former is None else look_alike_in(former)
    partner = None if found is None else found.partner(size.designation)
    if partner is None or partner.table.find(partner.size_key(size)) is None:
        return ()
    listed = meaning.class_name is None or lists_class(partner, size, meaning.class_name)
    if partner.classes is not None and not listed:
        return ()
    return (_around_length(_designation(meaning, (partner, size))),)


def _as_written(meaning: Asked, offered: Candidates, part: tuple[Product, ThreadSize], confidence: float) -> Resolved:
    """A size that the standard does not list is named as it is written; nothing is checked against it."""
    product, _ = part
    findings = (*offered.findings, *_unknown_class(meaning.class_name, (part,)))
    if product.has_length and not meaning.has_length:
        return Resolved(None, None, None, (), True, (*findings, _no_length()), confidence)
    before, after = _around_length(_designation(meaning, part))
    in_fractions = product if product.family.inch else None
    return Resolved(None, before, after, (), product.has_length, findings, confidence, in_fractions)


def _ambiguous(meaning: Asked, offered: Candidates, parts: tuple[tuple[Product, ThreadSize], ...]) -> Resolved:
    names = " or ".join(product.id for product, _ in parts)
    why = f"nothing says which is meant: {names}"
    if meaning.doubt is not None:
        why = f"{meaning.doubt}: it may be another product than {names}"
    findings = [
        *offered.findings,
        Finding("requirement-missing", "standard", None, names, why),
        *_unknown_class(meaning.class_name, parts),
    ]
    needs_length = any(product.has_length for product, _ in parts)
    if needs_length and not meaning.has_length:
        return Resolved(None, None, None, (), True, (*findings, _no_length()), 1 / len(parts))
    alternatives = tuple(_around_length(_designation(meaning, part)) for part in parts)
    confidence = 1 / max(2, len(parts))
    return Resolved(None, None, None, alternatives, needs_length, tuple(findings), confidence)


def _unknown_class(name: str | None, parts: tuple[tuple[Product, ThreadSize], ...]) -> tuple[Finding, ...]:
    """A class that no standard has is wrong whichever product is meant."""
    if name is None:
        return ()
    found = class_findings(*parts[0], name)
    return tuple(one for one in found if one.code == "property-class-unknown")


def _no_length() -> Finding:
    return Finding("requirement-missing", "length", None, None, "a bolt or screw needs a nominal length")


def _certain(meaning: Asked, offered: Candidates, part: tuple[Product, ThreadSize], confidence: float) -> Resolved:
    product, size = part
    sized = the_only(product, size)
    designation = _designation(meaning, part)
    name = designation.property_class
    findings = [*offered.findings, *class_findings(product, size, name), *size_findings(product, size)]
    if name is None:
        confidence = max(_LEAST, confidence - _CLASS_COSTS)
    if product.has_length and not meaning.has_length:
        return Resolved(designation, None, None, (), True, (*findings, _no_length()), confidence, sized=sized)
    before, after = _around_length(designation)
    instead = _instead(meaning, offered.former, size)
    return Resolved(designation, before, after, instead, product.has_length, tuple(findings), confidence, sized=sized)
