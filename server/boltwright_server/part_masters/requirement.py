"""What a row asks for, resolved against the standards, with its canonical designation.

Part masters repeat themselves in everything but the length: whatever does not depend on it is resolved once.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal, InvalidOperation
from functools import lru_cache
from typing import NamedTuple

from ..coating.coating import hot_dip_galvanized
from ..designations import ProductDesignation
from ..designations.sizes import length_text
from ..mechanical import find_grade
from ..products import Product
from ..quantities import Refusal
from ..standards import standard
from ..threads import ThreadSize
from .candidates import Candidates, Wanted, candidates
from .findings import Finding
from .lexicon import UNSAID
from .reading import Reading

_REMEMBERED = 65_536
_HOT_DIP = "tZn"
#: Confidence of a reading by how the product was found.
_CONFIDENCE = {"standard": 1.0, "former": 0.9, "words": 0.8, "unknown": 0.3}
_LEFT_OVER_COSTS, _CLASS_COSTS, _LEAST = 0.05, 0.1, 0.3
#: Stands where the length will stand in a remembered designation.
MARK_LENGTH = Decimal(7919)


class Meaning(NamedTuple):
    """The part of a reading that does not depend on the length."""

    wanted: Wanted
    class_name: str | None
    hot_dip: bool
    has_length: bool


class Resolved(NamedTuple):
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


@dataclass(slots=True)
class Requirement:
    """A row resolved. Where the product is not certain `designation` is None and `alternatives` holds what it may be.

    `part` is the product; its length stands in `length`.
    """

    reading: Reading
    resolved: Resolved
    findings: list[Finding]
    confidence: float
    designation: str | None = None
    part: ProductDesignation | None = None
    length: Decimal | None = None
    alternatives: list[str] = field(default_factory=list)


def resolve(reading: Reading) -> Requirement:
    """Resolve a reading: product, size, length, class; every doubt becomes a finding or an alternative."""
    length = None if reading.length is None else decimal_of(reading.length)
    found = _resolved(_meaning(reading, length is not None))
    requirement = Requirement(reading, found, list(found.findings), found.confidence)
    if found.confidence == 0.0 and not found.findings:
        requirement.findings.append(_unreadable(reading) if reading.diameter is None else _no_product())
    elif reading.left_over:
        requirement.confidence = max(_LEAST, found.confidence - _LEFT_OVER_COSTS * len(reading.left_over))
    return _take_length(requirement, length)


def _take_length(requirement: Requirement, length: Decimal | None) -> Requirement:
    found = requirement.resolved
    requirement.part = found.part
    requirement.length = length
    text = str(length)
    if found.in_fractions is not None and length is not None:
        text = length_text(found.in_fractions, length)
    if found.before is not None:
        requirement.designation = found.before if found.after is None else f"{found.before}{text}{found.after}"
    if found.alternatives:
        requirement.alternatives = [
            before if after is None else f"{before}{text}{after}" for before, after in found.alternatives
        ]
    if found.needs_length and length is not None and found.part is not None:
        requirement.findings.extend(_length_findings(found.part.product, found.part.size, length))
    return requirement


def _meaning(reading: Reading, has_length: bool) -> Meaning:
    features = reading.features
    wanted = Wanted(
        reading.standard,
        reading.concept,
        features.get("kind", "bolt" if has_length else UNSAID),
        features.get("drive", UNSAID),
        features.get("form", UNSAID),
        features.get("thread_form", UNSAID),
        reading.system,
        reading.diameter,
        reading.pitch,
    )
    return Meaning(wanted, _class_name(reading), reading.coating == _HOT_DIP, has_length)


@lru_cache(maxsize=_REMEMBERED)
def _resolved(meaning: Meaning) -> Resolved:
    offered = candidates(meaning.wanted)
    confidence = _CONFIDENCE[offered.how]
    parts = _of_class(offered, meaning.class_name)
    if not parts:
        return Resolved(None, None, None, (), False, offered.findings, confidence if offered.findings else 0.0)
    if offered.former is not None:
        return _of_former(meaning, offered, parts, confidence)
    found = _ambiguous(meaning, offered, parts) if len(parts) > 1 else _certain(meaning, offered, parts[0], confidence)
    product = parts[0][0]
    return found._replace(in_fractions=product) if product.family.inch else found


def _unreadable(reading: Reading) -> Finding:
    words = " ".join(reading.left_over[:5]) or None
    return Finding("unreadable", "description", words, None, "nothing in the row names a product that is held")


def _no_product() -> Finding:
    detail = "a size, but no word that says which product: name the product standard"
    return Finding("requirement-missing", "standard", None, None, detail)


def _class_name(reading: Reading) -> str | None:
    """The class as the standards write it; an inch grade carries its standard."""
    if reading.hardness is not None:
        return f"{reading.hardness} HV"
    grade = reading.grade or reading.property_class
    if grade is None or reading.system != "inch":
        return grade
    nut = reading.features.get("kind") == "nut" or (reading.concept or "").endswith("nut")
    return f"SAE {'J995' if nut else 'J429'} {grade}"


@lru_cache(maxsize=_REMEMBERED)
def decimal_of(text: str) -> Decimal | None:
    """Return a length; `1 1/2` and `3/4` are inches. None where the text is no number."""
    total = Decimal(0)
    try:
        for part in text.replace(",", ".").split():
            numerator, _, denominator = part.partition("/")
            total += Decimal(numerator) / Decimal(denominator) if denominator else Decimal(numerator)
    except (InvalidOperation, ZeroDivisionError):
        return None
    if not total.is_finite() or abs(total.adjusted()) > 6:
        return None
    total = total.normalize()
    return total.quantize(Decimal(1)) if total == total.to_integral_value() else total


def _of_class(offered: Candidates, name: str | None) -> tuple[tuple[Product, ThreadSize], ...]:
    """Where several products fit, those that list the class; all of them where none or no class is named."""
    if name is None or len(offered.parts) < 2:
        return offered.parts
    return tuple(part for part in offered.parts if lists_class(part[0], part[1], name)) or offered.parts


@lru_cache(maxsize=_REMEMBERED)
def lists_class(product: Product, size: ThreadSize, name: str) -> bool:
    """Say whether the product standard lists the class at that size."""
    row = product.class_row(name)
    return row is not None and row.number("d_min") <= size.d <= row.number("d_max")


def _designation(meaning: Meaning, part: tuple[Product, ThreadSize]) -> ProductDesignation:
    product, size = part
    coating = hot_dip_galvanized() if meaning.hot_dip else None
    length = MARK_LENGTH if product.has_length else None
    return ProductDesignation(product, size, length, meaning.class_name, coating)


def _around_length(designation: ProductDesignation) -> tuple[str, str | None]:
    """Return the canonical text before and after the length; None after it for a product without length."""
    before, mark, after = designation.canonical.partition(str(MARK_LENGTH))
    return before, after if mark else None


def _of_former(
    meaning: Meaning, offered: Candidates, parts: tuple[tuple[Product, ThreadSize], ...], confidence: float
) -> Resolved:
    """A former national standard keeps its own name; what followed it stands among the alternatives."""
    product, size = parts[0]
    name = meaning.class_name
    after = "" if name is None else f" - {name}"
    if product.has_length and not meaning.has_length:
        return Resolved(None, None, None, (), True, (*offered.findings, _no_length()), confidence)
    before = f"{offered.former} - {size.designation}" + ("x" if product.has_length else after)
    after_length = after if product.has_length else None
    alternatives = tuple(_around_length(_designation(meaning, part)) for part in parts)
    return Resolved(None, before, after_length, alternatives, product.has_length, offered.findings, confidence)


def _ambiguous(meaning: Meaning, offered: Candidates, parts: tuple[tuple[Product, ThreadSize], ...]) -> Resolved:
    names = " or ".join(product.id for product, _ in parts)
    findings = [
        *offered.findings,
        Finding("requirement-missing", "standard", None, names, f"nothing says which is meant: {names}"),
    ]
    needs_length = any(product.has_length for product, _ in parts)
    if needs_length and not meaning.has_length:
        return Resolved(None, None, None, (), True, (*findings, _no_length()), 1 / len(parts))
    alternatives = tuple(_around_length(_designation(meaning, part)) for part in parts)
    return Resolved(None, None, None, alternatives, needs_length, tuple(findings), 1 / len(parts))


def _no_length() -> Finding:
    return Finding("requirement-missing", "length", None, None, "a bolt or screw needs a nominal length")


def _certain(meaning: Meaning, offered: Candidates, part: tuple[Product, ThreadSize], confidence: float) -> Resolved:
    product, size = part
    designation = _designation(meaning, part)
    name = designation.property_class
    findings = [*offered.findings, *_class_findings(product, size, name), *_size_findings(product, size)]
    if name is None:
        confidence = max(_LEAST, confidence - _CLASS_COSTS)
    if product.has_length and not meaning.has_length:
        return Resolved(designation, None, None, (), True, (*findings, _no_length()), confidence)
    before, after = _around_length(designation)
    return Resolved(designation, before, after, (), product.has_length, tuple(findings), confidence)


@lru_cache(maxsize=_REMEMBERED)
def _length_findings(product: Product, size: ThreadSize, length: Decimal) -> tuple[Finding, ...]:
    row = product.row(size)
    if "l_min" not in row.cells or row.get("l_min") is None:
        return ()
    low, high = row.number("l_min"), row.number("l_max")
    if not low <= length <= high:
        detail = f"{product.standard.cited} lists {row.key[0]} from {low} to {high} mm, not {length} mm"
        given = Finding("length-not-in-standard", "length", str(length), f"{low} to {high}", detail, row.basis("l_max"))
        return (given,)
    lengths = standard("iso_888_2012").table("table_1")
    if product.standard.id.startswith("ISO") and lengths.find(length) is None:
        near = sorted((one for one in lengths.rows), key=lambda key: abs(Decimal(key[0]) - length))[:2]
        expected = " or ".join(str(key[0]) for key in sorted(near))
        basis = lengths.standard.basis(lengths.printed_as, lengths.checked, "tabulated")
        detail = f"{length} mm is no nominal length of ISO 888:2012"
        return (Finding("length-not-preferred", "length", str(length), expected, detail, basis),)
    return ()


@lru_cache(maxsize=_REMEMBERED)
def _class_findings(product: Product, size: ThreadSize, name: str | None) -> tuple[Finding, ...]:
    if name is None:
        detail = f"{product.id} needs a property class"
        return (Finding("requirement-missing", "property_class", None, None, detail),)
    if product.classes is None or lists_class(product, size, name):
        return ()
    listed = ", ".join(str(one) for one in product.classes.column_values("property_class"))
    if not product.family.hardness_only:
        try:
            find_grade(name, product.member)
        except Refusal as refusal:
            near = ", ".join(refusal.nearest) or listed
            return (Finding("property-class-unknown", "property_class", name, near, refusal.detail),)
    table = product.classes
    basis = table.standard.basis(table.printed_as, table.checked, "tabulated")
    detail = f"{product.standard.cited} does not list class {name} for {size.designation}; it lists {listed}"
    return (Finding("property-class-not-in-standard", "property_class", name, listed, detail, basis),)


@lru_cache(maxsize=_REMEMBERED)
def _size_findings(product: Product, size: ThreadSize) -> tuple[Finding, ...]:
    row = product.row(size)
    if row.cells.get("preferred") != "no":
        return ()
    table = row.table
    basis = table.standard.basis(table.printed_as, table.checked, "tabulated")
    detail = f"{product.standard.cited} lists {row.key[0]} among the non-preferred threads"
    return (Finding("size-not-preferred", "thread", str(row.key[0]), None, detail, basis),)
