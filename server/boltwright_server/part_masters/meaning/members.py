"""What the members of a row say beside its description, and how they are merged into one reading.

A member says what it is for and weighs more than the text; whatever else it says is merged too: nothing of it is lost.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from ...coating.marking import class_and_mark
from ...designations import parse_coating, parse_thread
from ...products import find_product
from ...quantities import Refusal
from ...quantities.keeper import remembered
from ..text.designated import named_grade, note_class, note_size
from ..text.scanned import Reading
from .candidates import kinds_by_standard
from .findings import Finding
from .reading import read, words_of
from .requirement import decimal_of

_STEEL = re.compile(r"[AaCcFfDd][1-8]")
#: `Fe/Zn 8` as one word.
_APART = re.compile(r"(?i)(?<=\bfe/[a-z]{2})\s+(?=\d)")
_LENGTH_UNITS = {"mm": "mm", "inches": "in", "inch": "in", "in": "in", '"': "in", "cm": "cm", "m": "m", "ft": "ft"}
#: Slots of a reading that one value fills, with the member that says each.
_SLOTS = {
    "standard": "standard",
    "diameter": "thread",
    "pitch": "thread",
    "length": "length",
    "hardness": "property_class",
    "coating": "coating",
}


def merge(reading: Reading, found: Reading, member: str | None, said: list[Finding]) -> None:
    """Add all that a member says to a reading; where they differ the member counts, and the difference is reported.

    `member` is None for a designation, whose parts are named by what they are.
    """
    if found.diameter is not None and reading.diameter is not None and not _same(found.diameter, reading.diameter):
        reading.pitch = reading.pitch if member is None else None
    for slot, of_slot in _SLOTS.items():
        value = getattr(found, slot)
        if value is not None:
            _take(slot, value, reading, member or of_slot, said)
    if found.grade is not None or found.property_class is not None:
        _merge_class(reading, found, member or "property_class", said)
    reading.system = found.system or reading.system
    reading.standards = found.standards or reading.standards
    reading.editions.update(found.editions)
    reading.doubt = reading.doubt or found.doubt
    reading.series = found.series or reading.series
    if found.features:
        reading.features.update(found.features)
    if found.figures:
        reading.figures = {**(reading.figures or {}), **found.figures}
    reading.used += found.used
    if found.left_over or found.unsettled or found.tolerances:
        reading.left_over += found.left_over
        reading.unexplained += found.unexplained
        reading.unsettled += found.unsettled
        reading.tolerances += found.tolerances


def _take(slot: str, value: str, reading: Reading, member: str, said: list[Finding]) -> None:
    standing = getattr(reading, slot)
    if standing is not None and not _same(standing, value) and value not in reading.standards:
        said.append(_contradiction(member, value, standing))
    setattr(reading, slot, value)


def _merge_class(reading: Reading, found: Reading, member: str, said: list[Finding]) -> None:
    """A class and a grade are two names of one thing; a grade may be written without its standard."""
    value, standing = found.grade or found.property_class or "", reading.grade or reading.property_class
    if standing is not None and _bare(value) != _bare(standing) and not _same(value, standing):
        said.append(_contradiction(member, value, standing))
    reading.property_class, reading.grade = found.property_class, found.grade


def _bare(name: str) -> str:
    return name.removeprefix("SAE J429 ").removeprefix("SAE J995 ")


def _same(one: str, other: str) -> bool:
    if one == other:
        return True
    numbers = decimal_of(one), decimal_of(other)
    return numbers[0] is not None and numbers[0] == numbers[1]


def _contradiction(member: str, given: str, described: str) -> Finding:
    detail = f"{member} {given} contradicts the text, which says {described}"
    return Finding("attribute-contradicts-description", member, given, described, detail)


@remembered(16_384)
def _said(text: str) -> Reading:
    """What a member says on its own; never changed by whoever gets it."""
    return read(text)


def take_standard(reading: Reading, given: str, said: list[Finding]) -> None:
    """The standard of the product; `ISO 898-1` and `SAE J429 5` say how strong it is, not which product."""
    found = _standard(given)
    merge(reading, found, "standard", said)


@remembered(16_384)
def _standard(given: str) -> Reading:
    try:
        product = find_product(given.strip())
        return Reading(standard=product.id, standards=[product.id], used=words_of(given))
    except Refusal:
        found = _said(given)
    only_strength = found.empty and found.used and not found.left_over and found.property_class is None
    if found.standard is None and not only_strength:
        name = given.strip()[:60]
        return Reading(standard=name, standards=[name], used=words_of(given))
    return found


def take_thread(reading: Reading, given: str, said: list[Finding]) -> None:
    """The size, with its length where it has one: `M10x60`."""
    merge(reading, _thread(given), "thread", said)


@remembered(16_384)
def _thread(given: str) -> Reading:
    try:
        thread = parse_thread(given)
    except Refusal:
        found = _said(given)
        bare = decimal_of(given) if found.diameter is None else None
        return found if bare is None else Reading(diameter=str(bare), system="metric", used=words_of(given))
    found = Reading(used=words_of(given))
    note_size(found, thread.size)
    found.tolerances = [one.designation for one in thread.classes]
    if thread.left_hand:
        found.features["hand"] = "left"
    return found


def take_length(reading: Reading, given: str, said: list[Finding]) -> None:
    """The nominal length, in the unit of the size."""
    text, unit = _number_and_unit(given)
    own = "in" if reading.system == "inch" else "mm"
    if decimal_of(text) is None or (unit is not None and unit != own):
        why = "is no number" if unit is None else f"is not in {own}, the unit of the size"
        said.append(Finding("value-unreadable", "length", given[:40], None, f"length {given[:40]!r} {why}"))
        return
    merge(reading, Reading(length=text, used=words_of(given)), "length", said)


def _number_and_unit(given: str) -> tuple[str, str | None]:
    """Return number and unit of a length: `60 mm`, `2 1/2 in`, `2"`."""
    text = given.strip().lower()
    for written, unit in _LENGTH_UNITS.items():
        if text.endswith(written):
            return text.removesuffix(written).strip(), unit
    return text, None


def take_class(reading: Reading, given: str, said: list[Finding]) -> None:
    """The property class, grade or hardness class, by the names of the engines first."""
    kinds = kinds_by_standard().get(reading.standard or "", frozenset((reading.features.get("kind", ""),)))
    several = len(kinds) > 1  # bolts and nuts of one standard: the class tells which
    member = None if several else "internal" if "nut" in kinds else "external" if "bolt" in kinds else None
    merge(reading, _class(given.strip(), member), "property_class", said)


@remembered(16_384)
def _class(given: str, member: str | None) -> Reading:
    if _STEEL.fullmatch(given) is not None:
        # The steel alone says nothing of the strength.
        return Reading(left_over=[given.upper()], features={"steel": given.upper()})
    bare, mark = class_and_mark(given.upper())
    name = named_grade(bare, member)
    if name is not None:
        found = Reading(used=words_of(given))
        note_class(found, name + mark)
        return found
    found = _said(given)
    if found.property_class is found.grade is found.hardness is None:
        return Reading(property_class=given[:40], used=words_of(given))
    return found


def take_coating(reading: Reading, given: str, said: list[Finding]) -> None:
    """The coating, as a standard designates it or in words."""
    found = _coating(given)
    if found.coating is None:
        detail = f"coating {given[:40]!r} is not understood"
        said.append(Finding("coating-unknown", "coating", given[:40], None, detail))
        return
    merge(reading, found, "coating", said)
    if found.left_over:
        # `zinc plated, sealed per WS 4711` is another coating than `zinc plated`.
        reading.features["finish"] = " ".join(found.left_over)


@remembered(16_384)
def _coating(given: str) -> Reading:
    try:
        return Reading(coating=parse_coating(given).designation, used=words_of(given))
    except Refusal:
        return _said(_APART.sub("", given))


TAKERS: dict[str, Callable[[Reading, str, list[Finding]], None]] = {
    "standard": take_standard,
    "thread": take_thread,
    "length": take_length,
    "property_class": take_class,
    "coating": take_coating,
}
