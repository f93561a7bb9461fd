"""One row as it comes in: which members are words, which are figures, and how they are merged into one reading."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any, NamedTuple

from ...quantities.keeper import remembered
from ...quantities.units import CODES
from ..figures.figure_limits import figure_ids
from ..meaning.findings import Finding
from ..meaning.members import TAKERS, merge
from ..meaning.reading import read
from ..text.scanned import Reading
from ..text.tokens import LONGEST_TEXT

WORDS = ("part_number", "description", "designation", "standard", "thread", "length", "property_class", "coating",
         "mates_with")  # fmt: skip
MASS = "mass_per_1000"
#: What stands in a cell that says nothing.
_NOTHING = frozenset(
    ("", "-", "--", "---", "?", "N/A", "NA", "N.A.", "NONE", "NULL", "NIL", "TBD", "OHNE", "KEINE", "SANS", "SIN")
)
_LONGEST_NAME, _FIGURE = 80, re.compile(r"\d")
#: `SW (min)` is a least width.
_NO_UNIT = ("min", "s", "1", "%")
_HEADER = re.compile(r"\s*([A-Za-z0-9_ ]{1,60}?)\s*(?:\[\s*([^\]\s]{1,12})\s*\])?\s*")

_ROUND_UNITS = "|".join(re.escape(code) for code in CODES if code not in _NO_UNIT)
#: Other words in round brackets are no unit, and leave a title unknown.
_IN_ROUND = re.compile(rf"\s*([A-Za-z0-9_ ]{{1,60}}?)\s*\(\s*({_ROUND_UNITS})\s*\)\s*")


class Header(NamedTuple):
    """What a column or member name means: its id and the unit that it names."""

    id: str
    unit: str | None


@remembered(4096)
def header_of(name: str) -> Header:
    """Read a column title: `tensile_load [lbf]`, `Tensile load (kN)`, `Tensile load`."""
    match = _HEADER.fullmatch(name[:100]) or _IN_ROUND.fullmatch(name[:100])
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
        merge(reading, read(designation), None, said)
    for member, take in TAKERS.items():
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
    return _name(text).copy()


@remembered(16_384)
def _name(text: str) -> Reading:
    return read(text)


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
