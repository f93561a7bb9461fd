"""Sizes: `M10x1.25x60`, `M 10 - 60`, `1/2-13 UNC-2A x 2 1/2`, `L=60`; and numbers that mean nothing for the part."""

from __future__ import annotations

from decimal import Decimal

from ....quantities import Refusal
from ....quantities.keeper import remembered
from ....quantities.rounding import shortest
from ....standards import rules
from ....threads import find_size
from ....threads.unified import of_diameter
from ..scanned import Unsettled
from ..tokens import Atom
from . import units
from .cursor import Cursor

_WHOLE_INCHES = frozenset(str(count) for count in range(1, 100))


@remembered()
def _listed_counts() -> frozenset[str]:
    """Threads per inch that ASME B1.1 lists, as they are written."""
    listed = rules("ASME B1.1").table("table_1").column_values("threads_per_inch")
    return frozenset(str(shortest(one)) for one in listed if isinstance(one, Decimal))


def thread(cursor: Cursor, atom: Atom) -> None:
    """`M 10`: the M of a metric size stands alone; elsewhere it says nothing."""
    if cursor.kind() == "number":
        metric(cursor, cursor.next())
    elif cursor.kind() == "class" and cursor.text().endswith("X"):
        # `M 8X 20` is no nut of class 8 that is cut oversize.
        metric(cursor, Atom("number", cursor.next().text[:-1], ""))
        if cursor.kind() == "number":
            cursor.scanned.numbers.append((cursor.at, cursor.next().value))
            more_sizes(cursor)


def metric(cursor: Cursor, atom: Atom) -> None:
    """`M10`, with the pitch and the length that follow it."""
    scanned = cursor.scanned
    diameter = without_zeros(atom.value)
    if scanned.reading.diameter is not None:
        _again(cursor, diameter)
        return
    scanned.reading.diameter, scanned.reading.system, scanned.size_at = diameter, "metric", cursor.at
    if cursor.kind() == "dash" and cursor.kind(1) == "number" and _pitch_ahead(cursor, diameter):
        cursor.at += 1
        scanned.numbers.append((cursor.at, cursor.next().value))
    more_sizes(cursor)
    if not scanned.numbers:
        dashed = cursor.kind() == "dash"
        if cursor.kind(dashed) == "number":
            scanned.behind_size = cursor.at + dashed


def _again(cursor: Cursor, diameter: str) -> None:
    """A second size: said twice, `M10 BOLT M10X60`, or another one, and then it is open which is meant."""
    scanned, place = cursor.scanned, cursor.at - 1
    first = [number for _, number in scanned.numbers]
    more_sizes(cursor)
    later = [number for _, number in scanned.numbers[len(first) :]]
    same = scanned.reading.diameter == diameter and (not first or not later or first == later)
    if same and not first:
        return
    del scanned.numbers[len(first) :]
    if same:
        return
    scanned.left.update(range(place, cursor.at))
    if scanned.reading.unsettled:
        return
    given = "x".join((f"M{diameter}", *later))
    standing = "x".join(
        (f"M{scanned.reading.diameter}" if scanned.reading.system == "metric" else "an inch size", *first)
    )
    detail = f"two sizes are named, {standing} and {given}; which of them is meant?"
    scanned.reading.unsettled.append(Unsettled("thread", f"{standing}, {given}", detail))


def _pitch_ahead(cursor: Cursor, diameter: str) -> bool:
    """`M10-1.25` and `M10-1.3` have a pitch, good or not; `M10-8` is a nut with its class."""
    number = cursor.text(1)
    listed = is_pitch(diameter, number) and not number.startswith("0")
    return cursor.kind(2) == "by" or listed or ("." in number and Decimal(number) < 4)


def more_sizes(cursor: Cursor) -> None:
    """Take every `x 1.25`, `x 60` that follows."""
    joined = False
    while cursor.kind() == "by" or joined:
        cursor.at += not joined
        joined = cursor.kind() == "class" and cursor.text()[:-1].isdigit() and cursor.text().endswith("X")
        if joined:
            # `M36X4x 360`: 4X is no class here.
            cursor.scanned.numbers.append((cursor.at, cursor.next().text[:-1]))
            continue
        value = inch_value(cursor) if cursor.scanned.reading.system == "inch" else _plain_number(cursor)
        if value is None:
            return
        if _improper(cursor, value):
            continue
        place = cursor.at - 1
        value = units.in_own_unit(cursor, value)
        if value is not None:
            cursor.scanned.numbers.append((place, value))


def _improper(cursor: Cursor, value: str) -> bool:
    """`11/2` may be 1-1/2 or 5-1/2 inches."""
    numerator, stroke, denominator = value.partition("/")
    if not stroke or " " in numerator or int(numerator) <= int(denominator):
        return False
    detail = f"the length {value} is no proper fraction: write it with its whole inches, as 1-1/2"
    cursor.scanned.reading.unsettled.append(Unsettled("length", value, detail, "value-unreadable"))
    return True


def _plain_number(cursor: Cursor) -> str | None:
    return cursor.next().value if cursor.kind() == "number" else None


def series(cursor: Cursor, atom: Atom) -> None:
    """`UNC`, `UNF`: held against the threads per inch."""
    cursor.scanned.reading.series = atom.text


def tolerance(cursor: Cursor, atom: Atom) -> None:
    """`6g`, `2A`: held against what the product has."""
    cursor.scanned.reading.tolerances.append(atom.text)


def skip_unit(cursor: Cursor) -> None:
    """Go past the unit of a size."""
    if cursor.kind() in ("word", "sign") and cursor.text() in ("MM", "IN", "INCH", '"'):
        cursor.at += 1


def by(cursor: Cursor, atom: Atom) -> None:
    """An x with numbers behind it, away from the size that it belongs to."""
    if cursor.scanned.reading.diameter is not None:
        cursor.at -= 1
        more_sizes(cursor)


def length(cursor: Cursor) -> None:
    """`L=60`, `LG 60`, or `60 LONG` with the number before; `x 60 LG` is said already."""
    if _length_said(cursor):
        return
    cursor.skip("sign", "other")
    value = inch_value(cursor) if cursor.scanned.reading.system == "inch" else _plain_number(cursor)
    loose = cursor.scanned.loose
    if value is None and loose and loose[-1][0] >= cursor.at - 3 and not _coating_before(cursor):
        value = loose.pop()[1]
    if value is not None:
        value = units.in_own_unit(cursor, value)
    if value is not None and cursor.scanned.reading.length is None:
        cursor.scanned.reading.length = without_zeros(value) if cursor.scanned.reading.system == "metric" else value


def _length_said(cursor: Cursor) -> bool:
    """Whether the number right before is the length: `x 5/8 LG`; it may be the pitch: `x 1.25 LG 60`."""
    numbers, reading = cursor.scanned.numbers, cursor.scanned.reading
    between = cursor.atoms[numbers[-1][0] + 1 : cursor.at - 1] if numbers else ()
    if not numbers or any(atom.text not in units.WRITTEN for atom in between):
        return False
    return len(numbers) > 1 or reading.system == "inch" or not is_pitch(reading.diameter or "", numbers[0][1])


def _coating_before(cursor: Cursor) -> bool:
    """`480h/L`: hours and lubrication of a coating."""
    return cursor.at > 1 and any(atom.text == "H" for atom in cursor.atoms[cursor.at - 3 : cursor.at - 1])


def pitch(cursor: Cursor) -> None:
    """`PAS 1.5`: the number behind the word is the pitch."""
    if cursor.kind() == "number":
        cursor.scanned.reading.pitch = cursor.scanned.reading.pitch or without_zeros(cursor.next().value)
        more_sizes(cursor)


def inch(cursor: Cursor, atom: Atom) -> None:
    """A number or fraction: the start of an inch size where threads per inch follow, else a loose number."""
    scanned, place = cursor.scanned, cursor.at
    cursor.at -= 1
    if scanned.reading.diameter is None and _inch_size(cursor):
        return
    cursor.at = place
    if atom.kind == "fraction":
        _loose_fraction(cursor, atom)
    elif scanned.reading.diameter is None and cursor.kind() == "by" and cursor.kind(1) == "number":
        numbers = [atom.value]
        while cursor.kind() == "by" and cursor.kind(1) == "number":
            cursor.at += 1
            numbers.append(cursor.next().value)
        scanned.bare_size = scanned.bare_size or (place - 1, numbers)
    else:
        value = units.in_own_unit(cursor, atom.value) if scanned.behind_size == place - 1 else atom.value
        if value is not None:
            scanned.loose.append((place - 1, value))


def _loose_fraction(cursor: Cursor, atom: Atom) -> None:
    if cursor.scanned.reading.diameter is None:
        cursor.scanned.reading.diameter, cursor.scanned.reading.system = atom.value.replace("-", " "), "inch"
        skip_unit(cursor)
        _of_series(cursor)
        more_sizes(cursor)
    else:
        cursor.leave()


def _of_series(cursor: Cursor) -> None:
    """`1/2 UNC`: the series says the threads per inch. ASME B1.1-2003, Table 1."""
    dashed = cursor.kind() == "dash"
    if cursor.kind(dashed) != "series":
        return
    written, reading = cursor.text(dashed).replace("UNR", "UN"), cursor.scanned.reading
    found = _threads_per_inch(reading.diameter or "", written)
    if found is not None:
        reading.pitch = found
        cursor.at += dashed + 1
        reading.series = written
        cursor.at += cursor.kind() == "dash" and cursor.kind(1) == "tolerance"
        if cursor.kind() == "tolerance":
            tolerance(cursor, cursor.next())


@remembered(4096)
def _threads_per_inch(diameter: str, series: str) -> str | None:
    """Return the threads per inch of UNC or UNF at a diameter; None where there is no such size."""
    try:
        found = next((size for size in of_diameter(diameter) if size.series == series), None)
    except Refusal:
        return None
    return None if found is None else format(found.threads_per_inch.normalize(), "f")


def _inch_size(cursor: Cursor) -> bool:
    numbered = cursor.kind() == "sign" and cursor.text() == "#"
    cursor.at += numbered
    diameter = inch_value(cursor)
    if diameter is None:
        return False
    skip_unit(cursor)
    dashed = cursor.kind() == "dash"
    cursor.at += dashed
    if cursor.kind() != "number" or not (dashed or cursor.kind(1) in ("by", "series")):
        return False
    count, size = cursor.next().value, _inch_diameter(diameter, numbered)
    if size is None or count not in _listed_counts():
        return False
    reading = cursor.scanned.reading
    reading.diameter, reading.pitch, reading.system = size, count, "inch"
    cursor.at += cursor.kind() == "dash" and cursor.kind(1) == "series"
    if cursor.kind() == "series":
        series(cursor, cursor.next())
    cursor.at += cursor.kind() == "dash" and cursor.kind(1) == "tolerance"
    if cursor.kind() == "tolerance":
        tolerance(cursor, cursor.next())
    more_sizes(cursor)
    return True


def inch_value(cursor: Cursor) -> str | None:
    """`2`, `3/4`, `2 1/2`, `2-1/2`, `.750`."""
    if cursor.kind() == "fraction":
        return cursor.next().value.replace("-", " ")
    if cursor.kind() != "number":
        return None
    whole = cursor.next().value
    dashed = cursor.kind() == "dash" and cursor.kind(1) == "fraction"
    if whole in _WHOLE_INCHES and (cursor.kind() == "fraction" or dashed):
        cursor.at += dashed
        return f"{whole} {cursor.next().value}"
    return whole


def sign(cursor: Cursor, atom: Atom) -> None:
    """`#10-32`: a numbered inch size."""
    if atom.text == "#" and cursor.scanned.reading.diameter is None:
        cursor.at -= 1
        place = cursor.at
        if not _inch_size(cursor):
            cursor.at = place + 1


def _inch_diameter(diameter: str, numbered: bool) -> str | None:
    """Return the diameter as it is asked for, None where it cannot be one: screws have numbers to 12, inches to 4."""
    if numbered:
        return f"#{diameter}" if diameter.isdigit() else None
    if diameter.isdigit():
        return diameter if int(diameter) <= 12 else None
    return diameter if "/" in diameter or Decimal(diameter) <= 4 else None


def count(cursor: Cursor) -> None:
    """`1000 PCS`, `100/BOX`: the number before it says nothing of the part."""
    place = cursor.at - 2
    place -= place >= 0 and cursor.atoms[place].kind == "sign"
    loose = cursor.scanned.loose
    if loose and loose[-1][0] == place and loose[-1][1].isdigit():
        loose.pop()


#: Words that stand behind the width, and small words before it.
_BEHIND_FLATS = ("AF", "A/F", "FLATS", "WAF")
_OF = ("DE", "DEL", "DA", "DI", "OF", "VON", "NO")


def flats(cursor: Cursor) -> None:
    """`SW 17`, `17 AF`: the width across flats, of the head or of the socket."""
    behind = cursor.atoms[cursor.at - 1].text in _BEHIND_FLATS
    while cursor.kind() in ("sign", "other") or (cursor.kind() in ("word", "unknown") and cursor.text() in _OF):
        cursor.at += 1
    loose = cursor.scanned.loose
    if cursor.kind() == "number":
        flats_are(cursor, cursor.next().value)
        skip_unit(cursor)
    elif behind and loose and loose[-1][0] in (cursor.at - 2, cursor.at - 3):
        flats_are(cursor, loose.pop()[1])
    else:
        cursor.leave()


def flats_are(cursor: Cursor, number: str) -> None:
    """Note the figure; an inch width is often named by a rounded decimal, which says nothing."""
    if cursor.scanned.reading.system != "inch":
        said = {"width_across_flats": number, "socket_width_across_flats": number}
        cursor.scanned.reading.figures = {**(cursor.scanned.reading.figures or {}), **said}


#: Between a word for a quantity and its number.
_BEFORE_COUNTS = ("OF", "DE", "DA", "A", "MINI", "MIN", "MINIMUM", "MAX", "=", "NO", "NR", "X")


def quantity(cursor: Cursor) -> None:
    """`PK 100`, `BOX OF 200`: nor does the number behind it."""
    if cursor.at > 1 and cursor.atoms[cursor.at - 2].kind == "sign":
        count(cursor)
        return
    place = cursor.at
    while cursor.kind() in ("word", "unknown", "sign") and cursor.text() in _BEFORE_COUNTS:
        cursor.at += 1
    if cursor.kind() == "number":
        cursor.at += 1
        return
    cursor.at = place
    count(cursor)


def without_zeros(number: str) -> str:
    """Return `6` for the `06` of a fixed-width field, and `10` for `10.00`."""
    if "." in number:
        number = number.rstrip("0").rstrip(".")
    whole = number.lstrip("0") or "0"
    return f"0{whole}" if whole[0] == "." else whole


@remembered(4096)
def is_pitch(diameter: str, number: str) -> bool:
    """Say whether a metric diameter has that pitch. ISO 261."""
    try:
        find_size(Decimal(diameter), Decimal(number))
    except (Refusal, ArithmeticError):
        return False
    return True
