"""One row as it comes in: which members are words, which are figures, and how they are merged into one reading."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache
from typing import Any, NamedTuple

from .figure_limits import figure_ids
from .findings import Finding
from .reading import read
from .requirement import decimal_of
from .scanned import Reading
from .tokens import LONGEST_TEXT

WORDS = ("part_number", "description", "designation", "standard", "thread", "length", "property_class", "coating",
         "mates_with")  # fmt: skip
MASS = "mass_per_1000"
#: What stands in a cell that says nothing.
_NOTHING = frozenset(
    ("", "-", "--", "---", "?", "N/A", "NA", "N.A.", "NONE", "NULL", "NIL", "TBD", "OHNE", "KEINE", "SANS", "SIN")
)
_STEEL = re.compile(r"[AaCcFfDd][1-8]")
#: `Fe/Zn 8` as one word.
_APART = re.compile(r"(?i)(?<=\bfe/[a-z]{2})\s+(?=\d)")
_LENGTH_UNITS = {"mm": "mm", "inches": "in", "inch": "in", "in": "in", '"': "in", "cm": "cm", "m": "m", "ft": "ft"}
_LONGEST_NAME, _FIGURE = 80, re.compile(r"\d")
_HEADER = re.compile(r"\s*([A-Za-z0-9_ ]{1,60}?)\s*(?:\[\s*([^\]\s]{1,12})\s*\])?\s*")


class Header(NamedTuple):
    """What a column or member name means: its id and the unit that it names."""

    id: str
    unit: str | None


@lru_cache(maxsize=4096)
def header_of(name: str) -> Header:
    """Read a column title: `tensile_load [lbf]`, `Tensile load`."""
    match = _HEADER.fullmatch(name[:100])
    if match is None:
        return Header(name, None)
    return Header(re.sub(r"[\s]+", "_", match[1].strip()).lower(), match[2])


def is_figure(id: str) -> bool:
    """Say whether a member holds a figure that can be checked."""
    return id in figure_ids() or id == MASS


def with_unit(given: Any, unit: str | None) -> Any:
    """Return a length with the unit that its title or its object names, as one text: `2 in`."""
    if isinstance(given, dict):
        given, unit = given.get("value"), given.get("unit") or unit
    bare = unit is not None and isinstance(given, str | int | float | Decimal) and not isinstance(given, bool)
    return f"{given} {unit}" if bare and str(given).strip().strip('"')[-1:].isdigit() else given


def text_of(row: Mapping[str, Any], member: str, said: list[Finding]) -> str:
    """Return a member as text; an over-long one is reported and not read."""
    given = row.get(member)
    if given is None or given == "":
        return ""
    text = given if isinstance(given, str) else str(given)
    if len(text) > LONGEST_TEXT:
        detail = f"{member} has {len(text)} characters; at most {LONGEST_TEXT} are read"
        said.append(Finding("cell-too-long", member, text[:40], None, detail))
        return ""
    return text


def says_nothing(text: str) -> bool:
    """Whether a cell is as good as empty: `-`, `N/A`, `none`."""
    return text.strip().upper() in _NOTHING


def reading_of(row: Mapping[str, Any], said: list[Finding]) -> Reading:
    """Return what all members of a row say together; a member that contradicts another is reported.

    A member says what it is for; a designation weighs more than a description.
    """
    reading = _described(text_of(row, "description", said))
    designation = text_of(row, "designation", said)
    if designation:
        reading = _with_designation(reading, read(designation), said)
    for member, take in _TAKERS.items():
        given = text_of(row, member, said) if member in row else ""
        if given and not says_nothing(given):
            take(reading, given, said)
    return reading


def _described(text: str) -> Reading:
    """Names without a figure repeat themselves over a catalogue: each is read once, and copied."""
    if not text:
        return Reading()
    if len(text) > _LONGEST_NAME or _FIGURE.search(text) is not None:
        return read(text)
    return _member_reading(text).copy()


def _with_designation(described: Reading, designated: Reading, said: list[Finding]) -> Reading:
    for slot in ("standard", "diameter", "pitch", "length", "property_class", "grade", "hardness", "coating"):
        given, other = getattr(described, slot), getattr(designated, slot)
        if other is None:
            setattr(designated, slot, given)
        elif given is not None and not _same(given, other):
            said.append(_contradiction(_MEMBER.get(slot, slot), other, given))
    designated.system = designated.system or described.system
    designated.features = {**described.features, **designated.features}
    designated.standards = designated.standards or described.standards
    designated.editions = {**described.editions, **designated.editions}
    designated.figures = designated.figures or described.figures
    designated.unsettled = [*designated.unsettled, *described.unsettled]
    designated.used = [*designated.used, *described.used]
    designated.left_over = [*designated.left_over, *described.left_over]
    return designated


_MEMBER = {"diameter": "thread", "pitch": "thread", "grade": "property_class", "hardness": "property_class"}


def _same(one: str, other: str) -> bool:
    if one == other:
        return True
    numbers = decimal_of(one), decimal_of(other)
    return numbers[0] is not None and numbers[0] == numbers[1]


def _contradiction(member: str, given: str, described: str) -> Finding:
    detail = f"{member} {given} contradicts the text, which says {described}"
    return Finding("attribute-contradicts-description", member, given, described, detail)


def repeated_members(ids: Sequence[str], values: Iterable[Any]) -> list[Finding]:
    """Return a finding for each member that a row gives twice with different values; empty ones say nothing."""
    given: dict[str, list[Any]] = {}
    for id, value in zip(ids, values, strict=False):
        if value not in (None, ""):
            given.setdefault(id, []).append(value)
    found = []
    for id, (*others, last) in given.items():
        other = next((one for one in others if one != last), None)
        if other is not None:
            texts = str(last)[:40], str(other)[:40]
            detail = f"{id[:60]} is given twice in the row, as {texts[1]!r} and as {texts[0]!r}, which is the one read"
            found.append(Finding("attribute-contradicts-description", id, *texts, detail))
    return found


@lru_cache(maxsize=16_384)
def _member_reading(text: str) -> Reading:
    """What a member says on its own; never changed by whoever gets it."""
    return read(text)


def _take(slot: str, value: str | None, reading: Reading, member: str, said: list[Finding]) -> None:
    if value is None:
        return
    standing = getattr(reading, slot)
    if standing is not None and not _same(standing, value):
        said.append(_contradiction(member, value, standing))
    setattr(reading, slot, value)


def _take_standard(reading: Reading, given: str, said: list[Finding]) -> None:
    found = _member_reading(given)
    if found.empty and found.used and not found.left_over and found.property_class is None:
        # `ISO 898-1`, `SAE J429 5` say how strong it is, not which product.
        _take("grade", found.grade, reading, "standard", said)
        return
    name = found.standard or given.strip()[:60]
    if name not in reading.standards:
        _take("standard", name, reading, "standard", said)
    reading.standard, reading.standards = name, [name]
    reading.editions.update(found.editions)
    reading.features.update(found.features)


def _take_thread(reading: Reading, given: str, said: list[Finding]) -> None:
    found = _member_reading(given)
    if found.diameter is None:
        bare = decimal_of(given)
        found = replace(found, diameter=str(bare) if bare is not None else None, system="metric")
    if found.diameter is not None and reading.diameter is not None and not _same(found.diameter, reading.diameter):
        reading.pitch = None
    _take("diameter", found.diameter, reading, "thread", said)
    _take("pitch", found.pitch, reading, "thread", said)
    if found.length is not None:
        _take("length", found.length, reading, "thread", said)
    reading.system = found.system or reading.system
    if "hand" in found.features:
        reading.features["hand"] = found.features["hand"]


def _take_length(reading: Reading, given: str, said: list[Finding]) -> None:
    text, unit = _number_and_unit(given)
    if decimal_of(text) is None or (unit is not None and unit != _unit(reading)):
        why = "is no number" if unit is None else f"is not in {_unit(reading)}, the unit of the size"
        said.append(Finding("value-unreadable", "length", given[:40], None, f"length {given[:40]!r} {why}"))
        return
    _take("length", text, reading, "length", said)


def _unit(reading: Reading) -> str:
    return "in" if reading.system == "inch" else "mm"


def _number_and_unit(given: str) -> tuple[str, str | None]:
    """Return number and unit of a length: `60 mm`, `2 1/2 in`, `2"`."""
    text = given.strip().lower()
    for written, unit in _LENGTH_UNITS.items():
        if text.endswith(written):
            return text.removesuffix(written).strip(), unit
    return text, None


def _take_class(reading: Reading, given: str, said: list[Finding]) -> None:
    if _STEEL.fullmatch(given.strip()) is not None:
        # The steel alone says nothing of the strength.
        reading.left_over = [*reading.left_over, given.strip().upper()]
        return
    found = _member_reading(given)
    for slot in ("property_class", "grade", "hardness"):
        _take(slot, getattr(found, slot), reading, "property_class", said)
    if found.property_class is found.grade is found.hardness is None:
        _take("property_class", given.strip()[:40], reading, "property_class", said)


def _take_coating(reading: Reading, given: str, said: list[Finding]) -> None:
    found = _member_reading(_APART.sub("", given))
    if found.coating is None:
        said.append(
            Finding("coating-unknown", "coating", given[:40], None, f"coating {given[:40]!r} is not understood")
        )
        return
    if found.left_over:
        reading.left_over = [*reading.left_over, *found.left_over]
    _take("coating", found.coating, reading, "coating", said)


_TAKERS: dict[str, Callable[[Reading, str, list[Finding]], None]] = {
    "standard": _take_standard,
    "thread": _take_thread,
    "length": _take_length,
    "property_class": _take_class,
    "coating": _take_coating,
}
