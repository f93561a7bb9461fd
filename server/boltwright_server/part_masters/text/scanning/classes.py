"""Property classes, grades, hardness, steels and coatings."""

from __future__ import annotations

import re

from ....designations import parse_coating
from ....quantities import Refusal
from ....quantities.keeper import remembered
from ..scanned import Unsettled
from ..tokens import Atom
from .cursor import SKIPPED, Cursor
from .standards import edition, short_edition

#: Coatings that say more than the word beside them: `hot dip zinc`, `zinc nickel`.
_STRONGER = ("tZn", "zinc flake", "zinc nickel")
#: `GALV` is hot dip to some and electroplated (galvanisch) to others.
AMBIGUOUS = "galv"
_PRICED = ("number", "fraction", "class")
_GRADED = ("ASTM A563", "ASTM A354", "ASTM A194", "ASTM A193", "ASTM A307")
#: Grades of ASTM A193 that are held, and those of them that have classes.
_STUD_GRADES = ("B7", "B7M", "B16", "B8", "B8M")
_WITH_CLASS = ("B8", "B8M")
#: Behind a number they say that it is no class.
_UNITS_OF_FIGURES = ("KG", "G", "LB", "LBS", "CM", "KN", "NM")
CURRENCIES = (
    "EUR",
    "EURO",
    "EUROS",
    "USD",
    "GBP",
    "CHF",
    "SEK",
    "NOK",
    "DKK",
    "CZK",
    "HUF",
    "RON",
    "TRY",
    "JPY",
    "CNY",
    "RMB",
    "INR",
    "AUD",
    "MXN",
    "BRL",
    "PREIS",
    "PRICE",
    "PRIX",
    "PRECIO",
    "PREZZO",
)
#: Steels by their numbers of wrought alloys: no grade of bolts.
_STEEL_NUMBERS = ("303", "304", "316", "410", "416", "430")
_DIGITS_OF_HARDNESS = 3
_GRADE_MARKS = ("GR", "GRADE", "CL", "CLASS")
_STRENGTHS_OF_STEELS = ("50", "70", "80", "100", "035", "025")


def property_class(cursor: Cursor, atom: Atom) -> None:
    """A class: a second one that differs leaves open which is meant. `5.6 KG` is a mass."""
    reading = cursor.scanned.reading
    if _of_figure(cursor):
        cursor.leave()
        return
    standing = reading.property_class or reading.grade
    if standing is None or (standing.endswith("X") and "." in atom.value):
        reading.property_class = atom.value
    else:
        _second(cursor, standing, atom.value)


def _of_figure(cursor: Cursor) -> bool:
    """`5.6 KG`, `5.60 EUR`; but in `8.8 EUR 0.35` the price stands behind its currency."""
    unit = cursor.text() if cursor.kind() in ("word", "unknown") else ""
    if unit in CURRENCIES:
        behind = 1 + (cursor.kind(1) in SKIPPED)
        return cursor.kind(behind) not in _PRICED
    return unit in _UNITS_OF_FIGURES


def price(cursor: Cursor) -> None:
    """`EUR 0.35`, `0.35 EUR`: the currency is left over with the number behind it, or else before it."""
    place = cursor.at - 1
    cursor.leave()
    loose = cursor.scanned.loose
    if cursor.kind(cursor.kind() in SKIPPED) in _PRICED:
        cursor.skip(*SKIPPED)
        cursor.next()
        cursor.leave()
    elif loose and loose[-1][0] == place - 1:
        cursor.scanned.left.add(loose.pop()[0])


def sign_of_currency(cursor: Cursor, atom: Atom) -> None:
    """`$ 4.60`, `0.35 €`."""
    price(cursor)


def _second(cursor: Cursor, standing: str, value: str) -> None:
    if standing == value:
        return
    cursor.leave()
    if any(one.member == "property_class" for one in cursor.scanned.reading.unsettled):
        return
    detail = f"two classes or grades are named, {standing} and {value}; which of them is meant?"
    both = (standing, value)
    cursor.scanned.reading.unsettled.append(Unsettled("property_class", f"{standing}, {value}", detail, instead=both))


def grade(cursor: Cursor, atom: Atom) -> None:
    """An inch grade, or a class written as `GR8.8`."""
    reading = cursor.scanned.reading
    standing = reading.property_class or reading.grade
    if standing is None:
        reading.grade = atom.value
    elif atom.value in _STEEL_NUMBERS:
        cursor.leave()
    else:
        _second(cursor, standing, atom.value)


def sae(cursor: Cursor, atom: Atom) -> None:
    """`SAE J429 GR 5`: the grade follows."""
    edition(cursor, atom.value)
    if cursor.kind() in ("number", "grade"):
        grade(cursor, cursor.next())


def astm(cursor: Cursor, atom: Atom) -> None:
    """`ASTM A574`, `A563 DH`: some standards have grades."""
    name = atom.value
    edition(cursor, name)
    short_edition(cursor, name)
    cursor.skip("dash")
    if cursor.kind() == "word" and cursor.text() in _GRADE_MARKS:
        cursor.at += 1
    if name == "ASTM F3125" and cursor.kind() == "astm":
        name = f"{name} {cursor.next().value.removeprefix('ASTM ')}"
    elif name == "ASTM A193":
        name = _stud_grade(cursor, name)
    elif name in _GRADED and (cursor.kind() == "nut_grade" or _one_letter(cursor)):
        name = f"{name} {cursor.next().text}"
    standing = cursor.scanned.reading.grade or ""
    if not standing.startswith(f"{name} "):
        grade(cursor, Atom("grade", name, ""))


def _stud_grade(cursor: Cursor, name: str) -> str:
    """`A193 B7`, `A193 B8 CL 2`."""
    # `B8M` is written as a coating code is, too.
    if cursor.kind() not in ("word", "unknown", "coating") or cursor.text() not in _STUD_GRADES:
        return name
    letter = cursor.next().text
    if letter in _WITH_CLASS and cursor.kind() == "class" and cursor.text().startswith("CL"):
        return f"{name} {letter} Class {cursor.next().value}"
    if (
        letter in _WITH_CLASS
        and cursor.kind() == "word"
        and cursor.text() in _GRADE_MARKS
        and cursor.kind(1) == "number"
    ):
        cursor.at += 1
        return f"{name} {letter} Class {cursor.next().value}"
    return f"{name} {letter}"


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
    """A coating as a standard designates it; `flZn/nc/480h` also with strokes."""
    text = atom.text
    if text.startswith("FLZN"):
        text = text.replace("/", "").replace("-", "")
        text = re.sub(r"(?=\d)", "-", text, count=1)
    cursor.scanned.reading.coating = _coating_name(text)


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
    said = cursor.scanned.reading.features
    if not value.startswith("A"):
        # `INOX`, `1.4301`, `SS316`: no strength follows.
        if value != "stainless" or "steel" not in said:
            said["steel"] = said["steel"] if said.get("steel", "").startswith("A") else value
        return
    said["steel"] = value
    dashed = cursor.kind() in ("dash", "sign") and cursor.kind(1) == "number" and len(cursor.text(1)) in (2, 3)
    if dashed or (cursor.kind() == "number" and cursor.text() in _STRENGTHS_OF_STEELS):
        cursor.at += dashed
        property_class(cursor, Atom("class", f"{value}-{cursor.next().value}", ""))
    else:
        cursor.scanned.steel_at = cursor.at - 1
        cursor.leave()


def thickness(cursor: Cursor) -> None:
    """`25 UM`: the number before it is the thickness of the coating, once a coating is known."""
    loose, place = cursor.scanned.loose, cursor.at - 1
    if loose and loose[-1][0] == place - 1 and cursor.scanned.thickness is None:
        cursor.scanned.thickness = (loose.pop()[1], (place - 1, place))
    else:
        cursor.leave()


def coat(cursor: Cursor, value: str) -> None:
    """A designation weighs more than words, a special word more than `zinc`."""
    reading = cursor.scanned.reading
    weak = reading.coating not in _STRONGER and value in _STRONGER
    if reading.coating is None or weak or reading.coating == AMBIGUOUS:
        reading.coating = _flake(cursor) if value == "zinc flake" else value


def _flake(cursor: Cursor) -> str:
    """`FLZN 480H`: the hours of the salt spray test stand apart."""
    hours = cursor.kind() == "number" and cursor.kind(1) in ("word", "unknown") and cursor.text(1) == "H"
    name = _coating_name(f"flZn-{cursor.text()}h") if hours else "zinc flake"
    cursor.at += 2 * hours
    return name


@remembered(4096)
def _coating_name(text: str) -> str:
    """Return a coating as its standard designates it; as it stands where no standard does."""
    try:
        return parse_coating(text).designation
    except Refusal:
        return text
