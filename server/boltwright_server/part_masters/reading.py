"""What a text says: standard, size, length, class, coating, the words that were used and those not understood."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache, lru_cache

from ..products import products
from ..quantities import Refusal
from ..threads import find_size
from .tokens import atoms, pieces

NUT_CLASSES = frozenset(("04", "05", "4", "5", "6", "8", "9", "10", "12"))
#: Bolt classes are written with one decimal.
_CLASS_SHAPE = re.compile(r"0?[1-9][0-9]?\.[0-9]")
#: Lengths are whole, or end in a half: 2.5.
_LENGTH_SHAPE = re.compile(r"\d{1,4}(?:\.[05]0?)?")


@dataclass(slots=True)
class Reading:
    """What a text says. Sizes and numbers stay text until the standards are asked.

    `standards` holds every product standard that is named; `standard` the one, where there is one.
    """

    standard: str | None = None
    edition: str | None = None
    system: str | None = None
    diameter: str | None = None
    pitch: str | None = None
    length: str | None = None
    property_class: str | None = None
    grade: str | None = None
    hardness: str | None = None
    coating: str | None = None
    features: dict[str, str] = field(default_factory=dict)
    #: A word that is not understood and may make it another product.
    doubt: str | None = None
    standards: list[str] = field(default_factory=list)
    used: list[str] = field(default_factory=list)
    left_over: list[str] = field(default_factory=list)

    @property
    def empty(self) -> bool:
        """Nothing was recognised that could name a product."""
        return self.diameter is None and self.standard is None and "kind" not in self.features


@dataclass(slots=True)
class Scanned:
    """A reading under way: numbers whose meaning follows from the rest, as places of their atoms with their text."""

    reading: Reading
    #: Behind the size, with an x: pitch and length.
    numbers: list[tuple[int, str]] = field(default_factory=list)
    #: The place of a loose number right behind the size: `M10 60`.
    behind_size: int | None = None
    #: Anywhere else: a class of a nut, a length, or left over.
    loose: list[tuple[int, str]] = field(default_factory=list)
    #: A size without its M, `10x60`, with the place where it stands.
    bare_size: tuple[int, list[str]] | None = None
    #: Features that a word for a whole kind implies; what is said outright weighs more.
    implied: dict[str, str] = field(default_factory=dict)
    left: set[int] = field(default_factory=set)
    #: Places of words beside the name that may make it another product, if nothing else explains them.
    doubts: list[int] = field(default_factory=list)


def read(text: str) -> Reading:
    """Return what a description or designation says; nothing is guessed that the words do not hold."""
    from .scanning import scan

    found = [atom for piece in pieces(text) for atom in atoms(piece)]
    scanned = scan(found)
    _finish(scanned)
    reading = scanned.reading
    reading.doubt = next((found[at].text for at in scanned.doubts if at in scanned.left), None)
    left = scanned.left
    reading.left_over = [atom.text for at, atom in enumerate(found) if at in left] if left else []
    reading.used = [
        atom.text for at, atom in enumerate(found) if atom.kind not in ("dash", "sign", "other") and at not in left
    ]
    return reading


def _finish(scanned: Scanned) -> None:
    """Give the numbers their meaning, now that everything else is known."""
    reading = scanned.reading
    reading.features = {**scanned.implied, **reading.features}
    reading.standard = reading.standards[0] if reading.standards else None
    if reading.diameter is None and scanned.bare_size is not None:
        _bare_size(scanned)
    if reading.diameter is None and scanned.loose and (_is(reading, "washer") or reading.standard is not None):
        reading.diameter, reading.system = scanned.loose.pop(0)[1], "metric"
    if reading.system == "metric":
        _metric_numbers(scanned)
    elif reading.system == "inch" and scanned.numbers and reading.length is None:
        reading.length = scanned.numbers.pop(0)[1]
    scanned.left.update(at for at, _ in scanned.numbers)
    for at, number in scanned.loose:
        if reading.property_class is None and reading.grade is None and _is_class(reading, number):
            reading.property_class = number
        else:
            scanned.left.add(at)


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


def without_zeros(number: str) -> str:
    """Return `6` for the `06` of a fixed-width field, and `10` for `10.00`."""
    if "." in number:
        number = number.rstrip("0").rstrip(".")
    return number.lstrip("0") or "0"


def _is(reading: Reading, kind: str) -> bool:
    """Whether it is a nut, a washer: the standard says, or else the words."""
    of_standard = _kinds_of_standard().get(reading.standard or "")
    return reading.features.get("kind") == kind if of_standard is None else kind in of_standard


@cache
def _kinds_of_standard() -> dict[str, frozenset[str]]:
    """Return what the products of a standard are: `nut` where the thread is internal, `washer` where there is none."""
    from .candidates import kinds_by_standard

    return kinds_by_standard()


def _is_class(reading: Reading, number: str) -> bool:
    """A bare number of a nut, or a number written as only classes of bolts are: 8.7 is a class, though none."""
    if _is(reading, "nut"):
        return number in NUT_CLASSES
    metric = reading.system == "metric" and not _is(reading, "washer")
    return metric and _CLASS_SHAPE.fullmatch(number) is not None


def _metric_numbers(scanned: Scanned) -> None:
    """Tell pitch from length among the numbers behind a metric diameter."""
    reading, numbers = scanned.reading, scanned.numbers
    no_length = _is(reading, "nut") or _is(reading, "washer")
    if numbers and reading.pitch is None:
        first = numbers[0][1]
        below = Decimal(first) < Decimal(reading.diameter or "1")
        is_one = is_pitch(reading.diameter or "", first) or not _LENGTH_SHAPE.fullmatch(first)
        if len(numbers) >= 2 or (is_one and (no_length or below)):
            reading.pitch = without_zeros(numbers.pop(0)[1])
    if no_length or reading.length is not None:
        return
    if numbers and _LENGTH_SHAPE.fullmatch(numbers[0][1]):
        reading.length = without_zeros(numbers.pop(0)[1])
    elif not numbers and scanned.behind_size is not None and _is(reading, "bolt"):
        _length_behind(scanned)


def _length_behind(scanned: Scanned) -> None:
    """`M10 60` without an x: of a bolt, a whole number right behind the size is its length."""
    at, number = next(one for one in scanned.loose if one[0] == scanned.behind_size)
    if number.isdigit():
        scanned.loose.remove((at, number))
        scanned.reading.length = without_zeros(number)


@lru_cache(maxsize=4096)
def is_pitch(diameter: str, number: str) -> bool:
    """Say whether a metric diameter has that pitch. ISO 261."""
    try:
        find_size(Decimal(diameter), Decimal(number))
    except (Refusal, ArithmeticError):
        return False
    return True


@cache
def held_standards() -> frozenset[str]:
    """Return the standards whose products are held."""
    return frozenset(product.standard.id for product in products())
