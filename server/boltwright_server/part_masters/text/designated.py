"""What the grammar of designations accepts is the answer: the words of such a text are not weighed one by one."""

from __future__ import annotations

import re
from typing import NamedTuple

from ...designations import ProductDesignation, accepted, parse_coating
from ...designations.reader import LONGEST, known_standards
from ...designations.sizes import length_text
from ...mechanical import grades, held_grade
from ...products import Product, products
from ...products.product import size_of
from ...quantities import Refusal
from ...quantities.keeper import remembered
from ...standards import current
from ...threads import ThreadSize, UnifiedSize, unified
from .scanned import Reading

_REMEMBERED = 16_384
#: A text with a length in whole mm or in inches: parts that differ in it alone are parsed once.
_LENGTH = re.compile(
    r"([^\n]{4,40}[- ]M ?\d{1,3}(?:\.\d{1,2})?(?: ?[xX] ?\d(?:\.\d{1,2})?)? ?[xX] ?)"
    r"([1-9]\d{1,2})((?:[ -][^\n]{1,60})?)"
)
_INCHES = re.compile(
    r"([^\n]{4,60}[ -]\d{1,2}(?:/\d{1,2})?-\d{1,2} ?[xX] ?)"
    r"(\d{1,2}(?:-\d{1,2}/\d{1,2})?|\d{1,2}/\d{1,2})((?: - [^\n]{1,60})?)"
)
#: The year behind the name of a standard: the grammar takes that of the edition held only.
_YEAR = re.compile(r"\s?[:-]\s?(?:19|20)\d\d(?!\d)")
#: A length that stands for any other, in mm and in inches.
_ANY, _ANY_INCHES = 9999, 999
#: Whole mm or inches, or inches as `_INCHES` has them; other lengths are left to the grammar.
_WHOLE_LENGTH = re.compile(r"[1-9]\d{0,2}")
_INCH_LENGTH = re.compile(r"[1-9]\d?(?:-\d{1,2}/\d{1,2})?|\d{1,2}/\d{1,2}")
#: A metric designation with other signs between its parts: white space and dashes are the same to the grammar.
_METRIC = re.compile(
    r"(ISO \d{3,5}(?:-\d)?)(?: ?- ?| )(M\d[\d.]{0,4}(?: ?[xX\u00d7] ?\d[\d.]{0,4}){0,2})"
    r"(?:(?: ?- ?| )(\d[\d.]{0,4}H?|[ACDF][1-8]-\d{2,3}))?"
    r"(?:(?: ?- ?| )(tZn|flZn[A-Za-z]{0,3}-\d{3}h|Fe/Zn[\w/]{1,20}|[A-Z]\d[A-Z]))?"
)
_BY = re.compile(r" ?[xX\u00d7] ?")
#: A sign or a word that no designation holds: words of three letters and more are known, but for a finish behind a
#: stroke.
_OTHER_WORD = re.compile(
    r"[;|_()]|(?<![/A-Za-z])(?![A-Za-z]{0,20}(?:UN|SAE|ASTM|GR|CLASS|TYPE|ZN))[A-Za-z]{3}", re.IGNORECASE
)


def designated(text: str) -> Reading | None:
    """Return what a designation says; None where the text is none that the grammar accepts."""
    if len(text) > LONGEST:
        return None
    begins = _beginning().match(text)
    if begins is None or _OTHER_WORD.search(text, begins.end()) is not None:
        return None
    exact = _canonical(text)
    if exact is not None:
        return exact
    for pattern, some in ((_LENGTH, _ANY), (_INCHES, _ANY_INCHES)):
        split = pattern.fullmatch(text)
        of_any = None if split is None else _parsed(f"{split[1]}{some}{split[3]}")
        if split is not None and of_any is not None and of_any.length == some:
            return _reading(of_any, split[2], text)
    found = _parsed(text)
    if found is None:
        return None
    return _reading(found, None if found.length is None else length_text(found.product, found.length), text)


def _canonical(text: str) -> Reading | None:
    """Return what a text says whose parts are written as those of its canonical text: the grammar says the same of it.

    Parts are looked up by their names; whatever is written in another way is left to the grammar.
    """
    metric = _METRIC.fullmatch(text)
    name, *parts = text.split(" - ") if metric is None else filter(None, metric.groups())
    found = _named_parts().get(name)
    if found is None or not parts:
        return None
    size, length = _BY.sub("x", parts[0]), None
    if found.has_length:
        size, by, length = size.rpartition("x")
        if not by or (_INCH_LENGTH if metric is None else _WHOLE_LENGTH).fullmatch(length) is None:
            return None
    thread = found.sizes.get(size)
    at = 2 if len(parts) > 1 and parts[1] in found.classes else 1
    coating = _coating_of(parts[at]) if len(parts) == at + 1 else None
    if thread is None or len(parts) > at + (coating is not None):
        return None
    reading = Reading(standard=name, standards=[name], length=length, coating=coating)
    note_size(reading, thread)
    if at == 2:
        note_class(reading, parts[1])
    return reading


class _NamedParts(NamedTuple):
    """Names of the sizes and classes of a product, as canonical texts write them."""

    has_length: bool
    sizes: dict[str, ThreadSize]
    classes: frozenset[str]


@remembered()
def _named_parts() -> dict[str, _NamedParts]:
    return {product.id: _parts_of(product) for product in products()}


def _parts_of(product: Product) -> _NamedParts:
    sizes: list[ThreadSize]
    if product.family.inch:
        every = (size for key in product.size_keys() for size in unified.of_diameter(key))
        sizes = [size for size in every if product.table.find(size.name) is not None]
    else:
        sizes = [size_of(key) for key in product.size_keys()]
    if product.family.hardness_only:
        classes = (
            [] if product.classes is None else [str(one) for one in product.classes.column_values("property_class")]
        )
    else:
        classes = [one.name for one in grades() if one.member == product.member]
    return _NamedParts(product.has_length, {product.size_name(one): one for one in sizes}, frozenset(classes))


@remembered(1024)
def _coating_of(text: str) -> str | None:
    """Return a coating that is written as it is designated."""
    try:
        return text if parse_coating(text).designation == text else None
    except Refusal:
        return None


@remembered()
def _beginning() -> re.Pattern[str]:
    return re.compile(rf"\s*(?:{known_standards()})(?![0-9])", re.IGNORECASE)


@remembered(_REMEMBERED)
def _parsed(text: str) -> ProductDesignation | None:
    """Return a designation of a current edition."""
    found = accepted(text)
    return found if found is not None and current(found.product.standard.id) is found.product.standard else None


def _reading(found: ProductDesignation, length: str | None, text: str) -> Reading:
    """Return a designation as the words of a row would say it."""
    product = found.product
    reading = Reading(standard=product.id, standards=[product.id], length=length)
    note_size(reading, found.size)
    begins = _beginning().match(text)
    if begins is not None and _YEAR.match(text, begins.end()) is not None:
        reading.editions[product.standard.id] = product.standard.edition
    if reading.system == "metric" and reading.pitch is not None and not _writes(text, reading.pitch):
        reading.pitch = None
    if found.property_class is not None:
        note_class(reading, found.property_class + found.mark)
    if found.coating is not None:
        reading.coating = found.coating.designation
    return reading


@remembered(64)
def _pitch_of(pitch: str) -> re.Pattern[str]:
    return re.compile(rf"[xX*\u00d7\u2715]\s*{pitch.replace('.', '[.,]')}(?:[.,]?0+)?(?![\d.,])")


def _writes(text: str, pitch: str) -> bool:
    """Whether a pitch is written; that of the only thread of a diameter may be left out."""
    return f"x{pitch}" in text or _pitch_of(pitch).search(text) is not None


def note_size(reading: Reading, size: ThreadSize) -> None:
    """Note a thread as the words of a row would say it; a coarse pitch is not written."""
    if isinstance(size, UnifiedSize):
        reading.system = "inch"
        reading.diameter, _, reading.pitch = size.short.rpartition("-")
    else:
        reading.system = "metric"
        reading.diameter, _, pitch = size.designation.removeprefix("M").partition("x")
        reading.pitch = pitch or None


def note_class(reading: Reading, name: str) -> None:
    """Note a class, grade or hardness class by its name."""
    if name.endswith(" HV"):
        reading.hardness = name.removesuffix(" HV")
    elif name.startswith(("SAE", "ASTM")):
        reading.grade = name
    else:
        reading.property_class = name


@remembered(_REMEMBERED)
def named_grade(text: str, member: str | None) -> str | None:
    """Return the name by which the engines hold a class or grade, None where they hold none of that name."""
    held = held_grade(text, member)
    return None if held is None else held.name
