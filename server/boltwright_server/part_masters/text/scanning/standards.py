"""Names of standards: `DIN EN ISO 4014`, `ISO 4014:2011`, `BS 3692`, `NF E 25-112`."""

from __future__ import annotations

from ....products import products
from ....products.look_alikes import look_alikes
from ....quantities.keeper import remembered
from ..tokens import Atom
from .cursor import SKIPPED, Cursor

#: Standards that say how a product is made, coated or tested, not which product it is.
_NOT_PRODUCTS = (
    *("ISO 898-1", "ISO 898-2", "ISO 898-5", "ISO 3506-1", "ISO 3506-2", "ISO 4042", "ISO 10683", "ISO 10684"),
    *("ISO 4759-1", "ISO 4759-3", "ISO 3269", "ISO 965-1", "ISO 261", "ISO 888", "ISO 9001", "DIN 267", "DIN 13"),
    *("EN 10204", "EN 15048", "EN 1090", "EN 10269", "EN 20898", "ISO 16228", "ISO 2702", "ISO 9227", "DIN 50049"),
)
_NATIONAL = ("BS", "UNI", "UNE", "NF", "NFE", "JIS", "GB", "GB/T", "GOST", "CSN", "ONORM")
#: `EN` is a Spanish word too: `en 10 mm`.
_SHORTEST_EN = 4
_PARTS = ("1", "2", "3")
#: Atoms of the name of a plant's own standard.
_LONGEST_OWN = 6
_DIGITS_OF_YEAR, _DIGITS_OF_MONTH, _MONTHS = 4, 2, 12


def standard(cursor: Cursor, atom: Atom) -> None:
    """A standard that is written in one piece. `ISO 7089-8` may hold the size of a washer."""
    name = atom.value
    base, part = name.rpartition("-")[::2]
    if part.isdigit() and base and not known_standard(name) and known_standard(base) and not _is_part(base, part):
        name = base
        _later(cursor, part)
    _name(cursor, name)
    _same_body(cursor, name)


def _same_body(cursor: Cursor, name: str) -> None:
    """`ISO 4014/4017` names two standards."""
    body = name.partition(" ")[0]
    while cursor.kind() == "sign" and cursor.text() == "/" and cursor.kind(1) == "number":
        other = f"{body} {cursor.text(1)}"
        if not known_standard(other):
            return
        cursor.at += 2
        _name(cursor, other)


@remembered(4096)
def _is_part(base: str, part: str) -> bool:
    """Whether a number is a part of a standard that has parts: `ISO 7380-2` is no ISO 7380 of size 2."""
    return part in _PARTS and any(name.startswith(f"{base}-") for name in _held_standards())


def _later(cursor: Cursor, number: str) -> None:
    """A number that was scanned with what stands before it."""
    cursor.scanned.loose.append((cursor.at - 1, number))


def _name(cursor: Cursor, name: str) -> None:
    reading = cursor.scanned.reading
    edition(cursor, name)
    if not {name, name.partition("-")[0]} & {*_NOT_PRODUCTS} and name not in reading.standards:
        reading.standards.append(name)


def edition(cursor: Cursor, name: str) -> None:
    """Take the year behind a standard: `:2011`, `:2011-06`, `-2011`; it says nothing of any other standard."""
    cursor.scanned.named = name
    place = cursor.at
    if cursor.kind() == "year":
        _dated(cursor, cursor.next().value)
    elif cursor.kind() == "dash" and cursor.kind(1) == "number" and _is_year(cursor.text(1)):
        cursor.at = place + 1
        _dated(cursor, cursor.next().value)


def short_edition(cursor: Cursor, name: str) -> None:
    """`A325-14`: ASTM writes two digits of the year."""
    two = cursor.text(1) if cursor.kind() == "dash" and cursor.kind(1) == "number" else ""
    if len(two) == _DIGITS_OF_MONTH and cursor.kind(2) not in ("by", "dash", "sign"):
        cursor.at += 2
        cursor.scanned.reading.editions.setdefault(name, f"{'19' if two >= '50' else '20'}{two}")


def worded_edition(cursor: Cursor) -> None:
    """`AUSGABE 2011`, `ED. 2011-06`: of the standard that stands before it."""
    cursor.skip("sign", "other", "dash")
    if cursor.kind() == "number" and _is_year(cursor.text()) and cursor.scanned.named is not None:
        _dated(cursor, cursor.next().value)


def _dated(cursor: Cursor, year: str) -> None:
    assert cursor.scanned.named is not None
    cursor.scanned.reading.editions.setdefault(cursor.scanned.named, year)
    month = cursor.text(1) if cursor.kind() == "dash" and cursor.kind(1) == "number" else ""
    if len(month) == _DIGITS_OF_MONTH and 1 <= int(month) <= _MONTHS:
        cursor.at += 2


def _is_year(number: str) -> bool:
    return len(number) == _DIGITS_OF_YEAR and number.startswith(("19", "20"))


def body(cursor: Cursor, atom: Atom) -> None:
    """`DIN EN ISO 4014` is ISO 4014; `BS 3692` and `EN 24014` keep their names."""
    name = atom.value
    while cursor.kind() == "body" or (cursor.kind() in SKIPPED and cursor.kind(1) == "body"):
        following = cursor.next()
        name = following.value if following.kind == "body" and name != "ISO" else name
    if cursor.kind() == "standard":
        return
    place = cursor.at
    letters = _letters(cursor) if name in _NATIONAL else ""
    if cursor.kind() != "number":
        cursor.at = place
        return
    if name == "EN" and len(cursor.text()) < _SHORTEST_EN:
        cursor.at = place
        return
    number = letters + cursor.next().value
    while cursor.kind() == "dash" and cursor.kind(1) == "number":
        longer = f"{number}-{cursor.text(1)}"
        other = name in ("ISO", "DIN") and not known_standard(f"{name} {longer}")
        if other and not _is_part(f"{name} {number}", cursor.text(1)):
            break
        number, cursor.at = longer, cursor.at + 2
    _name(cursor, f"{name} {number}")
    _same_body(cursor, f"{name} {number}")


def own_standard(cursor: Cursor, text: str) -> bool:
    """Read `WN 4711`, `WN4711-2`: a standard of the plant's own that is served beside the built-in ones."""
    names, found = _own_names(), None
    written, place = text, cursor.at
    for _ in range(_LONGEST_OWN if names else 0):
        found = (names[written], place) if written in names else found
        while cursor.kinds[place] in SKIPPED:
            place += 1
        if place >= len(cursor.atoms):
            break
        written, place = written + cursor.atoms[place].text, place + 1
    if found is None:
        return False
    name, cursor.at = found
    _name(cursor, name)
    return True


@remembered()
def _own_names() -> dict[str, str]:
    """Return held standards that no issuing body names, by their letters and digits."""
    bodies = ("ISO ", "ASME ", "DIN ", "EN ", *(f"{body} " for body in _NATIONAL))
    own = (name for name in _held_standards() if not name.startswith(bodies) and any(map(str.isdigit, name)))
    return {"".join(sign for sign in name.upper() if sign.isalnum()): name for name in own}


def _letters(cursor: Cursor) -> str:
    """The letters of `JIS B 1180` and `NF E 25-112`."""
    atom = cursor.atoms[cursor.at] if cursor.kind() in ("word", "unknown") else None
    if atom is None or not (len(atom.text) == 1 or (atom.text[0] == "B" and atom.text[1:].isdigit())):
        return ""
    cursor.at += 1
    if len(atom.text) > 1:
        _name(cursor, f"JIS {atom.text}")
        return ""
    return f"{atom.text} "


@remembered(16_384)
def known_standard(name: str) -> bool:
    """Say whether a standard is held, or known as a former one, or as one that names no product."""
    former = {one.former for one in look_alikes()}
    return name in _held_standards() or name in former or name in _NOT_PRODUCTS


@remembered()
def _held_standards() -> frozenset[str]:
    """Return the standards whose products are held."""
    return frozenset(name for product in products() for name in (product.standard.id, *product.standard.also))
