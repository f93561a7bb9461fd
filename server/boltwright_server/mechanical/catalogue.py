"""Which standard answers for a property class or grade, and how its name may be written."""

from __future__ import annotations

import re
from dataclasses import replace
from difflib import get_close_matches
from functools import cache

from ..quantities import Contradiction, UnknownName
from ..threads import MetricSize
from . import iso_898_1, iso_898_2, iso_3506
from .answer import MechanicalMinimums, PartShape
from .grade import Grade

_REDUCED = ("4.8", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9", "12.9U")
_STRUCTURAL = ("8.8", "10.9")
#: Words that say nothing: "grade 5", "class 8.8", "gr. B7".
_FILLER = re.compile(r"\b(?:GRADE|GR|CLASS|CL|PROPERTY|TYPE)\b\.?")
_UNDERLINE = "\u0332"


@cache
def grades() -> tuple[Grade, ...]:
    """Return every class and grade held, bolts before nuts."""
    bolts = "iso_898_1_2013"
    found = [Grade(code, code, "external", bolts) for code in iso_898_1.CLASSES]
    found += [Grade(f"0{code}", code, "external", bolts, reduced_loadability=True) for code in _REDUCED]
    found += [Grade(f"{code}S", code, "external", bolts, structural=True) for code in _STRUCTURAL]
    found += [Grade(code, code, "internal", "iso_898_2_2012") for code in iso_898_2.CLASSES]
    found += [Grade(code, code, "external", "iso_3506_1_2009") for code in iso_3506.bolt_codes()]
    found += [Grade(code, code, "internal", "iso_3506_2_2009") for code in iso_3506.nut_codes()]
    return tuple(found)


def _key(text: str) -> str:
    """Return the letters and digits that distinguish a name: `SAE J429 Grade 5` and `sae j429-5` are one."""
    if _UNDERLINE in text:
        text = text.replace(_UNDERLINE, "") + "U"
    words = _FILLER.sub(" ", text.upper().replace("STRUCTURAL", "S").replace("UNDERLINED", "U"))
    return re.sub(r"[\s_/-]+", "", words.replace(",", "."))


@cache
def _by_key() -> dict[str, tuple[Grade, ...]]:
    found: dict[str, tuple[Grade, ...]] = {}
    for grade in grades():
        for key in _keys(grade):
            found[key] = (*found.get(key, ()), grade)
    return found


def _keys(grade: Grade) -> tuple[str, ...]:
    """Every way to write a name: whole, and without the body that publishes the standard."""
    whole = _key(grade.name)
    return tuple(dict.fromkeys((whole, re.sub(r"^(?:SAE|ASTM)", "", whole))))


def find_grade(text: str, member: str | None = None, query_member: str = "property_class") -> Grade:
    """Return the class or grade that a text names; bolts win where bolts and nuts share a name and no member is given.

    Raises:
        UnknownName: no standard held has it; carries the nearest.
        Contradiction: the class is of the other member.
    """
    named = _by_key().get(_key(text), ())
    fitting = [grade for grade in named if member in (None, grade.member)]
    if fitting:
        return fitting[0]
    if named:
        owner = "bolts" if named[0].member == "external" else "nuts"
        raise Contradiction(f"class {named[0].name} is a class of {owner}", member="member")
    raise UnknownName(
        f"no property class or grade {text[:40]!r}: bolts of ISO 898-1 have {', '.join(iso_898_1.CLASSES)}, "
        f"nuts of ISO 898-2 have {', '.join(iso_898_2.CLASSES)}; stainless steel is written A2-70",
        member=query_member,
        code="unknown_property_class",
        nearest=_nearest(text, member),
    )


def _nearest(text: str, member: str | None) -> list[str]:
    names = {_key(grade.name): grade.name for grade in grades() if member in (None, grade.member)}
    key = _key(text[:60])
    same_code = [grade.name for grade in grades() if _key(grade.code) == key and member in (None, grade.member)]
    close = [names[one] for one in get_close_matches(key, list(names), n=4, cutoff=0.3)]
    return list(dict.fromkeys(same_code + close))[:4]


def find_class(property_class: str, member: str | None = None) -> str:
    """Return the member that a property class belongs to: bolts have `8.8`, nuts `8`.

    Raises:
        UnknownName, Contradiction: as `find_grade`.
    """
    return find_grade(property_class, member).member


def mechanical_minimums(
    size: MetricSize,
    grade: Grade | str,
    member: str | None = None,
    style: int | None = None,
    *,
    structural: bool = False,
    shape: PartShape | None = None,
) -> MechanicalMinimums:
    """Return the mechanical properties, loads and tests of a thread in a property class or grade.

    Raises:
        UnknownName, Contradiction: as `find_grade`; `structural` for a class that has no structural column.
        NotStandardised, NotCovered: as the standard's engine.
    """
    found = find_grade(grade, member) if isinstance(grade, str) else grade
    if structural:
        found = _for_structural_bolting(found)
    if found.folder == "iso_898_1_2013":
        return iso_898_1.bolt_minimums(size, found, shape)
    if found.folder == "iso_898_2_2012":
        return iso_898_2.nut_minimums(size, found, style)
    if found.folder == "iso_3506_2_2009":
        return iso_3506.stainless_nut_minimums(size, found)
    return iso_3506.stainless_bolt_minimums(size, found, shape)


def _for_structural_bolting(grade: Grade) -> Grade:
    if grade.folder != "iso_898_1_2013" or grade.reduced_loadability:
        raise Contradiction(
            f"structural bolting is a matter of bolts of ISO 898-1, not of {grade.name}", member="structural"
        )
    return replace(grade, structural=True, name=f"{grade.code}S")
