"""Reads a text: its atoms are scanned, then the numbers get the meaning that everything else gives them."""

from __future__ import annotations

import re
from decimal import Decimal

from ..text.designated import designated
from ..text.lexicon import terms
from ..text.scanned import Reading, Scanned, Unsettled
from ..text.scanning import scan
from ..text.scanning.beside import NO_FASTENERS
from ..text.scanning.classes import CURRENCIES
from ..text.scanning.cursor import SKIPPED
from ..text.scanning.sizes import is_pitch, without_zeros
from ..text.scanning.units import RODS
from ..text.tokens import atoms, pieces
from .candidates import kinds_by_standard

#: Strengths of ISO 3506-1 and -2.
_STRENGTHS = frozenset(("50", "70", "80", "100", "025", "035", "040", "050", "070", "080"))
#: Metals of coatings that words name. ISO 4042.
_METALS = {"zinc plated": "Zn", "zinc nickel": "ZnNi", "cadmium plated": "Cd"}
NUT_CLASSES = frozenset(("04", "05", "4", "5", "6", "8", "9", "10", "12"))
#: Bolt classes are written with one decimal.
_CLASS_SHAPE = re.compile(r"0?[1-9][0-9]?\.[0-9]")
#: Atoms that a part begins with, and the digits of a part number.
_OF_PART = ("standard", "body", "metric", "thread", "fraction")
_PART_NUMBER = 4
#: Lengths are whole, or end in a half: 2.5.
_LENGTH_SHAPE = re.compile(r"\d{1,4}(?:\.[05]0?)?")


def read(text: str) -> Reading:
    """Return what a description or designation says; nothing is guessed that the words do not hold.

    What the grammar of designations accepts is the answer; the words are weighed only otherwise.
    """
    strict = designated(text)
    if strict is not None:
        strict.used = words_of(text)
        return strict
    found = [atom for piece in pieces(text) for atom in atoms(piece)]
    scanned = scan(found)
    _finish(scanned)
    reading = scanned.reading
    reading.doubt = next((found[at].text for at in scanned.doubts if at in scanned.left), None)
    left = scanned.left
    if left:
        reading.left_over = [atom.text for at, atom in enumerate(found) if at in left]
        reading.unexplained = _unexplained(text, left)
    reading.used = [atom.text for at, atom in enumerate(found) if atom.kind not in SKIPPED and at not in left]
    return reading


def _unexplained(text: str, left: set[int]) -> list[str]:
    """Return what is left over and may be a requirement of its own: `XYLAN`, `FINISH 14`.

    Numbers of parts, items, places and prices are none: what stands behind a word for one, a number of four digits
    and more, unless a strange word stands before it, and any number before the part.
    """
    found: list[str] = []
    at, before, strange, begun = 0, "", "", False
    for piece in pieces(text):
        of_piece = atoms(piece)
        last, strange = strange, "".join(one.text for place, one in enumerate(of_piece, at) if place in left)
        at += len(of_piece)
        begun = begun or any(atom.kind in _OF_PART for atom in of_piece)
        digits = sum(map(str.isdigit, piece))
        is_number = digits >= _PART_NUMBER or (digits and not begun)
        if not any(map(str.isalnum, strange)) or _is_label(strange):
            strange = ""
        elif not _is_label(before) and (not is_number or last):
            found.append(strange)
        before = of_piece[-1].text if of_piece else before
    return found


def _is_label(word: str) -> bool:
    """Whether a word says that a number of something else follows: `BIN A12`, `SUPPLIER 4711`, `EUR 0,35`."""
    term = terms().get(word)
    return word in CURRENCIES or (term is not None and term.feature == "label")


def words_of(text: str) -> list[str]:
    """Return the words of a text, without the signs between them."""
    return [atom.text for piece in pieces(text) for atom in atoms(piece) if atom.kind not in SKIPPED]


def _finish(scanned: Scanned) -> None:
    """Give the numbers their meaning, now that everything else is known."""
    reading = scanned.reading
    reading.features = {**scanned.implied, **reading.features}
    reading.standard = reading.standards[0] if reading.standards else None
    _beside_the_part(scanned)
    if reading.features.get("form") == "thin" and _is(reading, "washer"):
        # `Scheibe flach`: a washer is flat, a nut is thin.
        reading.features["form"] = "flat"
    if reading.diameter is None and scanned.bare_size is not None:
        _bare_size(scanned)
    if reading.diameter is None and scanned.loose and (_is(reading, "washer") or reading.standard is not None):
        reading.diameter, reading.system = scanned.loose.pop(0)[1], "metric"
    if reading.system == "metric":
        _metric_numbers(scanned)
    elif reading.system == "inch" and scanned.numbers and reading.length is None:
        reading.length = scanned.numbers.pop(0)[1]
    _steel_and_strength(scanned)
    _thickness(scanned)
    scanned.left.update(at for at, _ in scanned.numbers)
    # A number before the size is rarely the class: `ITEM 12 HEX NUT M20 8`.
    for at, number in sorted(scanned.loose, key=lambda one: one[0] < scanned.size_at):
        if reading.property_class is None and reading.grade is None and _is_class(reading, number):
            reading.property_class = number
        else:
            scanned.left.add(at)


def _beside_the_part(scanned: Scanned) -> None:
    """Tell the part from what it is sold with and from where it goes, now that it is known whether one is named."""
    reading = scanned.reading
    features = reading.features
    of_standard = kinds_by_standard().get(reading.standard or "")
    if reading.standard is None:
        scanned.left.update(scanned.by_standard)
    if of_standard is not None and features.get("other") in NO_FASTENERS:
        del features["other"]
        scanned.left.update(scanned.no_fastener)
    also = features.get("also")
    if also is None or "kind" in features or "other" in features:
        return
    if of_standard is None and not scanned.numbers and reading.length is None:
        # Nothing else is named: it is the part.
        features["kind" if also in ("bolt", "nut", "washer") else "other"] = features.pop("also")
    elif of_standard == frozenset((also,)):
        del features["also"]


def _steel_and_strength(scanned: Scanned) -> None:
    """`INOX A2 CL 70`: steel and strength stand apart. ISO 3506-1."""
    reading, at = scanned.reading, scanned.steel_at
    if at is not None and reading.property_class in _STRENGTHS:
        reading.property_class = f"{reading.features['steel']}-{reading.property_class}"
        scanned.left.discard(at)


def _thickness(scanned: Scanned) -> None:
    """`ZINC PLATED 25 UM` is Fe/Zn25 of ISO 4042; of another coating the thickness is left over."""
    if scanned.thickness is None:
        return
    number, places = scanned.thickness
    metal = _METALS.get(scanned.reading.coating or "")
    if metal is None:
        scanned.left.update(places)
    else:
        scanned.reading.coating = f"Fe/{metal}{without_zeros(number)}"


def _bare_size(scanned: Scanned) -> None:
    """`10x60` is a metric size where a metric standard or class says so; else it may be anything."""
    assert scanned.bare_size is not None
    at, numbers = scanned.bare_size
    reading = scanned.reading
    metric = (reading.standard or "").startswith(("ISO", "DIN")) or _CLASS_SHAPE.fullmatch(reading.property_class or "")
    if metric and Decimal(numbers[0]) > 1:
        reading.diameter, reading.system = without_zeros(numbers[0]), "metric"
        scanned.numbers.extend((at, number) for number in numbers[1:])
    else:
        scanned.left.add(at)


def _is(reading: Reading, kind: str) -> bool:
    """Whether it is a nut, a washer: the standard says, or else the words; a standard of several is one of bolts."""
    of_standard, said = kinds_by_standard().get(reading.standard or ""), reading.features.get("kind")
    if not of_standard:
        return said == kind
    return kind == (said or "bolt") if len(of_standard) > 1 else kind in of_standard


def _is_class(reading: Reading, number: str) -> bool:
    """A bare number of a nut, or a number written as only classes of bolts are: 8.7 is a class, though none."""
    if _is(reading, "nut"):
        return number in NUT_CLASSES
    metric = reading.system == "metric" and not _is(reading, "washer")
    return metric and _CLASS_SHAPE.fullmatch(number) is not None


def _metric_numbers(scanned: Scanned) -> None:
    """Tell pitch from length among the numbers behind a metric diameter."""
    reading, numbers = scanned.reading, scanned.numbers
    if _is(reading, "washer"):
        _washer(scanned)
        return
    no_length = _is(reading, "nut")
    if numbers and reading.pitch is None:
        first = numbers[0][1]
        below = Decimal(first) < Decimal(reading.diameter or "1")
        is_one = is_pitch(reading.diameter or "", first) or not _LENGTH_SHAPE.fullmatch(first)
        if len(numbers) >= 2 or (is_one and (no_length or below)):
            reading.pitch = without_zeros(numbers.pop(0)[1])
    if no_length:
        return
    if reading.length is not None:
        _two_lengths(scanned)
        return
    if numbers and _LENGTH_SHAPE.fullmatch(numbers[0][1]):
        reading.length = without_zeros(numbers.pop(0)[1])
    elif not numbers and scanned.behind_size is not None and _has_length(reading):
        _length_behind(scanned)


def _washer(scanned: Scanned) -> None:
    """`10x20x2` are hole, outside diameter and thickness; what stands behind them is left over."""
    names = ("outer_diameter", "thickness")
    if scanned.numbers:
        said = {name: without_zeros(number) for name, (_, number) in zip(names, scanned.numbers, strict=False)}
        scanned.reading.figures = {**(scanned.reading.figures or {}), **said}
        del scanned.numbers[: len(said)]


def _two_lengths(scanned: Scanned) -> None:
    """`M10x60 ... L=58`: which is meant?"""
    reading = scanned.reading
    other = without_zeros(scanned.numbers[0][1]) if scanned.numbers else reading.length
    if other != reading.length and not reading.unsettled:
        detail = f"two lengths are named, {other} and {reading.length}; which of them is meant?"
        given = f"{other}, {reading.length}"
        reading.unsettled.append(Unsettled("length", given, detail))


def _has_length(reading: Reading) -> bool:
    return _is(reading, "bolt") or reading.features.get("other") in RODS


def _length_behind(scanned: Scanned) -> None:
    """`M10 60` without an x: of a bolt, a whole number right behind the size is its length."""
    behind = next((one for one in scanned.loose if one[0] == scanned.behind_size), None)
    # Another word may have taken the number meanwhile: `M10 60 PCS` is a count.
    if behind is not None and behind[1].isdigit():
        scanned.loose.remove(behind)
        scanned.reading.length = without_zeros(behind[1])
