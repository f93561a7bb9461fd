"""Names of property classes and grades (`8.8`, `08.8`, `A2-70`, `SAE J429 5`) and how else they are written."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..quantities import Contradiction, UnknownName, near_names
from ..quantities.keeper import remembered
from ..standards import Standard, all_standards, current, rules
from ..threads import Member
from . import iso_898_1, iso_898_2, iso_3506, stress_grades
from .grade import Grade

_REDUCED = ("4.8", "5.8", "6.8", "8.8", "9.8", "10.9", "12.9", "12.9U")
_STRUCTURAL = ("8.8", "10.9")
_STRESS_GRADES: dict[str, Member] = {"bolt_stress_grade": "external", "nut_stress_grade": "internal"}
#: Words that say nothing: "grade 5", "class 8.8", "gr. B7".
_FILLER = re.compile(r"\b(?:GRADE|GR|CLASS|CL|PROPERTY|TYPE)\b\.?")
#: "Grade 5" alone is a grade of SAE, of a bolt or a nut, and never class 5 of ISO 898-2.
_BARE_GRADE = re.compile(r"\s*(?:GRADE|GR)\b", re.IGNORECASE)
_UNDERLINE = "\u0332"


@remembered()
def grades() -> tuple[Grade, ...]:
    """Return every class and grade held; bolts stand before nuts of the same name."""
    bolts, nuts = rules(iso_898_1.STANDARD).folder, rules(iso_898_2.STANDARD).folder
    stainless = rules(iso_3506.BOLTS, holding="table_2").folder, rules(iso_3506.NUTS).folder
    found = [Grade(code, code, "external", bolts) for code in iso_898_1.CLASSES]
    found += [Grade(f"0{code}", code, "external", bolts, reduced_loadability=True) for code in _REDUCED]
    found += [Grade(f"{code}S", code, "external", bolts, structural=True) for code in _STRUCTURAL]
    found += [Grade(code, code, "internal", nuts) for code in iso_898_2.CLASSES]
    found += [Grade(code, code, "external", stainless[0]) for code in iso_3506.bolt_codes()]
    found += [_reduced_stainless(code, stainless[0]) for code in iso_3506.bolt_codes()]
    found += [Grade(code, code, "internal", stainless[1]) for code in iso_3506.nut_codes()]
    for facts in all_standards():
        if facts.family in _STRESS_GRADES and current(facts.id) is facts:
            found += _stress_grades(facts)
    return tuple(found)


def _reduced_stainless(code: str, folder: str) -> Grade:
    """ISO 3506-1:2020 marks reduced loadability with a zero before the class, A2-070 (memory)."""
    steel, property_class = code.split("-")
    return Grade(f"{steel}-0{property_class}", code, "external", folder, reduced_loadability=True)


def _stress_grades(facts: Standard) -> Iterator[Grade]:
    for code in stress_grades.codes(facts):
        name = facts.id if code == "-" else f"{facts.id} {code}"
        yield Grade(name, code, _STRESS_GRADES[facts.family], facts.folder)


def _key(text: str) -> str:
    """Return the letters and digits that distinguish a name: `SAE J429 Grade 5` and `sae j429-5` are one."""
    if _UNDERLINE in text:
        text = text.replace(_UNDERLINE, "") + "U"
    words = _FILLER.sub(" ", text.upper().replace("STRUCTURAL", "S").replace("UNDERLINED", "U"))
    return re.sub(r"[\s_/-]+", "", words.replace(",", "."))


def _keys(grade: Grade) -> tuple[str, ...]:
    """Every way to write a name: whole, without the body that publishes the standard, with the zero in front."""
    whole = _key(grade.name)
    zero = (f"0{_key(grade.code)}",) if grade.reduced_loadability else ()
    return tuple(dict.fromkeys((whole, re.sub(r"^(?:SAE|ASTM)", "", whole), *zero)))


@remembered()
def _by_key() -> dict[str, tuple[Grade, ...]]:
    found: dict[str, tuple[Grade, ...]] = {}
    for grade in grades():
        for key in _keys(grade):
            found[key] = (*found.get(key, ()), grade)
    return found


def held_grade(text: str, member: str | None = None) -> Grade | None:
    """Return the class or grade that a text names, as `find_grade`; None where none is held. Looks for no near one."""
    return next((grade for grade in _named(text) if member in (None, grade.member)), None)


def _named(text: str) -> tuple[Grade, ...]:
    return () if _BARE_GRADE.match(text) else _by_key().get(_key(text), ())


def find_grade(text: str, member: str | None = None, query_member: str = "property_class") -> Grade:
    """Return the class or grade that a text names; bolts win where bolts and nuts share a name and no member is given.

    Raises:
        UnknownName: no standard held has it; carries the nearest.
        Contradiction: the class is of the other member.
    """
    held = held_grade(text, member)
    if held is not None:
        return held
    if named := _named(text):
        owner = "bolts" if named[0].member == "external" else "nuts"
        raise Contradiction(f"class {named[0].name} is a class of {owner}", member="member")
    raise UnknownName(
        f"no property class or grade {text[:40]!r}: bolts of ISO 898-1 have {', '.join(iso_898_1.CLASSES)}, "
        f"nuts of ISO 898-2 have {', '.join(iso_898_2.CLASSES)}; others are written A2-70 or SAE J429 5",
        member=query_member,
        code="unknown_property_class",
        nearest=_nearest(text[:60], member),
    )


@remembered(1024)
def _nearest(text: str, member: str | None) -> tuple[str, ...]:
    names = [grade.name for grade in grades() if member in (None, grade.member)]
    code = _FILLER.sub("", text.upper()).strip()
    same_code = [grade.name for grade in grades() if grade.code == code and member in (None, grade.member)]
    if _BARE_GRADE.match(text):
        same_code = [name for name in same_code if name != code]
    return tuple(dict.fromkeys((*same_code, *near_names(code, names))))[:4]
