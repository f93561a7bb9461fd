"""Property classes, grades, hardness, steels and coatings."""

from __future__ import annotations

from functools import cache

from ...designations import parse_coating
from ...quantities import Refusal
from ..tokens import Atom
from .cursor import Cursor

#: Coatings that say more than the word beside them: `hot dip zinc`, `zinc nickel`.
_STRONGER = ("tZn", "zinc flake", "zinc nickel")
_GRADED = ("ASTM A563", "ASTM A354", "ASTM A194", "ASTM A193", "ASTM A307")
_DIGITS_OF_HARDNESS = 3
_GRADE_MARKS = ("GR", "GRADE", "CL", "CLASS")
_STRENGTHS_OF_STEELS = ("50", "70", "80", "100", "035", "025")


def property_class(cursor: Cursor, atom: Atom) -> None:
    """A class: the first that is named counts, another one is left over."""
    reading = cursor.scanned.reading
    if reading.property_class is None and reading.grade is None:
        reading.property_class = atom.value
    elif reading.property_class != atom.value:
        cursor.leave()


def grade(cursor: Cursor, atom: Atom) -> None:
    """An inch grade, or a class written as `GR8.8`."""
    if cursor.scanned.reading.property_class is None:
        cursor.scanned.reading.grade = cursor.scanned.reading.grade or atom.value


def sae(cursor: Cursor, atom: Atom) -> None:
    """`SAE J429 GR 5`: the grade follows."""
    if cursor.kind() in ("number", "grade"):
        grade(cursor, cursor.next())


def astm(cursor: Cursor, atom: Atom) -> None:
    """`ASTM A574`, `A563 DH`: some standards have grades."""
    name = atom.value
    cursor.skip("dash")
    if cursor.kind() == "word" and cursor.text() in _GRADE_MARKS:
        cursor.at += 1
    if name in _GRADED and (cursor.kind() == "nut_grade" or _one_letter(cursor)):
        name = f"{name} {cursor.next().text}"
    grade(cursor, Atom("grade", name, ""))


def _one_letter(cursor: Cursor) -> bool:
    return cursor.kind() in ("word", "unknown") and cursor.text() in ("A", "B", "C", "D")


def nut_grade(cursor: Cursor, atom: Atom) -> None:
    """`2H` alone is that of ASTM A194."""
    if atom.text == "2H":
        grade(cursor, Atom("grade", "ASTM A194 2H", ""))
    else:
        cursor.leave()


def hardness(cursor: Cursor, atom: Atom) -> None:
    """`200HV`."""
    cursor.scanned.reading.hardness = atom.value


def vickers(cursor: Cursor, atom: Atom) -> None:
    """`200 HV`, `HV 200`: three digits right before it, or else behind it."""
    loose = cursor.scanned.loose
    if loose and loose[-1][0] == cursor.at - 2 and len(loose[-1][1]) == _DIGITS_OF_HARDNESS:
        cursor.scanned.reading.hardness = loose.pop()[1]
    elif cursor.kind() == "number" and len(cursor.text()) == _DIGITS_OF_HARDNESS:
        cursor.scanned.reading.hardness = cursor.next().value


def coating(cursor: Cursor, atom: Atom) -> None:
    """A coating as a standard designates it."""
    cursor.scanned.reading.coating = _coating_name(atom.text)


def marked_class(cursor: Cursor) -> None:
    """`GRADE 8.8`, `CL. 10`; French also writes `classe 8-8`."""
    cursor.skip("sign", "other")
    if cursor.kind() == "number":
        number = cursor.next().value
        if cursor.kind() == "dash" and cursor.kind(1) == "number" and len(cursor.text(1)) == 1:
            cursor.at += 1
            number = f"{number}.{cursor.next().value}"
        property_class(cursor, Atom("class", number, ""))


def steel(cursor: Cursor, value: str) -> None:
    """`A2 70` is a class; `A2` alone leaves the strength open and is left over."""
    if value == "stainless":
        return
    if cursor.kind() == "number" and cursor.text() in _STRENGTHS_OF_STEELS:
        property_class(cursor, Atom("class", f"{value}-{cursor.next().value}", ""))
    else:
        cursor.leave()


def coat(cursor: Cursor, value: str) -> None:
    """A designation weighs more than words, a special word more than `zinc`."""
    reading = cursor.scanned.reading
    if reading.coating is None or (reading.coating not in _STRONGER and value in _STRONGER):
        reading.coating = value


@cache
def _coating_name(text: str) -> str:
    """Return a coating as its standard designates it; as it stands where no standard does."""
    try:
        return parse_coating(text).designation
    except Refusal:
        return text
