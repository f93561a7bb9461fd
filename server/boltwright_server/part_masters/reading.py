"""From atoms to what a text says: standard, size, length, class, coating, and the words that were not understood."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache, lru_cache

from ..products import products
from ..quantities import Refusal
from ..threads import find_size
from .lexicon import UNSAID, terms
from .tokens import Atom, atoms, pieces

#: Standards that say how a product is made, not which product it is.
_NOT_PRODUCTS = (
    "ISO 898-1",
    "ISO 898-2",
    "ISO 3506-1",
    "ISO 3506-2",
    "ISO 4042",
    "ISO 10683",
    "ISO 10684",
    "ISO 4759-1",
)
_TPI = frozenset(("4", "4.5", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "16", "18", "20", "24", "27", "28",
                  "32", "36", "40", "44", "48", "56", "64", "72", "80"))  # fmt: skip
NUT_CLASSES = frozenset(("04", "05", "4", "5", "6", "8", "9", "10", "12"))
#: Bolt classes are written with one decimal.
_CLASS_SHAPE = re.compile(r"[1-9][0-9]?\.[0-9]")
_FEATURES = ("kind", "drive", "form", "thread_form", "series")


@dataclass(slots=True)
class Reading:
    """What a text says. Sizes and numbers stay text until the standards are asked."""

    standard: str | None = None
    system: str | None = None
    diameter: str | None = None
    pitch: str | None = None
    length: str | None = None
    property_class: str | None = None
    grade: str | None = None
    hardness: str | None = None
    coating: str | None = None
    concept: str | None = None
    features: dict[str, str] = field(default_factory=dict)
    numbers: list[str] = field(default_factory=list)
    left_over: list[str] = field(default_factory=list)
    conflicts: list[str] = field(default_factory=list)

    @property
    def empty(self) -> bool:
        """Nothing was recognised that could name a product."""
        return self.diameter is None and self.standard is None and not self.features and self.concept is None


@cache
def _nut_standards() -> frozenset[str]:
    """Standards whose products are nuts: there a bare number is a class."""
    return frozenset(product.standard.id for product in products() if product.member == "internal")


def read(text: str) -> Reading:
    """Return what a description or designation says; nothing is guessed that the words do not hold."""
    found = Reading()
    scanner = _Scanner(found)
    for piece in pieces(text):
        for atom in atoms(piece):
            scanner.take(atom)
    scanner.finish()
    return found


class _Scanner:
    """Takes atoms one by one; `_expects` says what a bare number would be."""

    __slots__ = ("_body", "_expects", "_last", "_loose", "_reading")

    def __init__(self, reading: Reading) -> None:
        self._reading = reading
        self._expects = ""
        self._body = ""
        self._last = ""
        self._loose: list[str] = []

    def take(self, atom: Atom) -> None:
        kind = atom.kind
        if kind == "number":
            self._number(atom.value)
        elif kind == "word":
            self._word(atom.value)
        else:
            handler = _HANDLERS.get(kind)
            if handler is None:
                if kind == "unknown":
                    self._reading.left_over.append(atom.text)
            else:
                handler(self, atom.value)
        self._last = kind

    def finish(self) -> None:
        """Give the numbers after the size their meaning; a loose number is a class of a nut, or left over."""
        reading = self._reading
        if reading.diameter is None and self._loose:
            self._bare_diameter()
        if reading.system == "metric":
            _metric_numbers(reading)
        elif reading.system == "inch" and reading.numbers:
            if reading.pitch is None and reading.numbers[0] in _TPI:
                reading.pitch = reading.numbers.pop(0)
            reading.length = reading.numbers.pop(0) if reading.numbers else None
        for number in (*self._loose, *reading.numbers):
            if reading.property_class is None and reading.grade is None and self._is_class(number):
                reading.property_class = number
            else:
                reading.left_over.append(number)

    def _is_class(self, number: str) -> bool:
        """A bare number of a nut, or a number written as only classes of bolts are: 8.7 is a class, though none."""
        reading = self._reading
        nut = reading.features.get("kind") == "nut" or (reading.concept or "").endswith("nut")
        nut = nut or reading.standard in _nut_standards()
        return (
            number in NUT_CLASSES if nut else reading.system == "metric" and _CLASS_SHAPE.fullmatch(number) is not None
        )

    def _bare_diameter(self) -> None:
        """A washer, or a row whose other members say the rest, may name its size without M."""
        if self._reading.features.get("kind") == "washer" or self._reading.standard is not None:
            self._reading.diameter, self._reading.system = self._loose.pop(0), "metric"

    def _number(self, value: str) -> None:
        reading = self._reading
        if self._last == "thread":
            self._metric(value)
        elif self._body:
            self._standard(f"{self._body} {value}")
            self._body = ""
        elif self._expects == "class":
            self._class(value)
        elif self._expects == "screw number":
            reading.diameter, reading.system = f"#{value}", "inch"
        elif self._expects == "size" and reading.diameter is not None:
            reading.numbers.append(value)
        elif reading.diameter is None and self._expects == "tpi" and value in _TPI and self._loose:
            reading.diameter, reading.pitch, reading.system = self._loose.pop(), value, "inch"
            self._expects = "size"
            return
        else:
            self._loose.append(value)
        self._expects = ""

    def _word(self, value: str) -> None:
        reading = self._reading
        term = terms()[value]
        feature = term.feature
        if feature == "marker":
            self._expects = "class"
            return
        if feature in _FEATURES:
            _set(reading, feature, term.value)
        elif feature == "coating":
            reading.coating = _coating(reading.coating, term.value)
        elif feature == "concept":
            reading.concept = reading.concept or term.value
        self._expects = self._expects if feature == "noise" and self._expects == "class" else ""

    def _standard(self, value: str) -> None:
        reading = self._reading
        if value in _NOT_PRODUCTS:
            return
        if reading.standard is not None and reading.standard != value:
            reading.conflicts.append("standard")
        reading.standard = reading.standard or value

    def _set_body(self, value: str) -> None:
        self._body = "ISO" if value in ("ISO", "EN") else "DIN" if value == "DIN" else ""
        if value in ("DIN", "EN") and self._last == "body":
            self._body = "ISO"

    def _metric(self, value: str) -> None:
        if self._reading.diameter is not None and self._reading.diameter != value:
            self._reading.conflicts.append("thread")
            return
        self._reading.diameter, self._reading.system = value, "metric"
        self._expects = ""

    def _fraction(self, value: str) -> None:
        reading = self._reading
        if reading.diameter is None:
            whole = f"{self._loose.pop()} " if self._loose and self._last == "number" else ""
            reading.diameter, reading.system = whole + value, "inch"
        elif self._expects == "size":
            reading.numbers.append(value.replace("-", " "))
        elif reading.numbers and self._last == "number":
            reading.numbers[-1] += f" {value}"
        else:
            reading.left_over.append(value)
        self._expects = ""

    def _class(self, value: str) -> None:
        if self._reading.property_class not in (None, value):
            self._reading.conflicts.append("property_class")
            return
        self._reading.property_class = value

    def _grade(self, value: str) -> None:
        self._reading.grade = value

    def _hardness(self, value: str) -> None:
        self._reading.hardness = value

    def _vickers(self, value: str) -> None:
        if self._last == "number" and self._loose:
            self._reading.hardness = self._loose.pop()

    def _by(self, value: str) -> None:
        self._expects = "size" if self._reading.diameter is not None else ""

    def _dash(self, value: str) -> None:
        if self._last in ("metric", "fraction") or (self._last == "number" and self._reading.diameter is not None):
            self._expects = "size"
        elif self._last == "number":
            self._expects = "tpi"

    def _sign(self, value: str) -> None:
        if value == "#":
            self._expects = "screw number"


_HANDLERS = {
    "standard": _Scanner._standard,
    "body": _Scanner._set_body,
    "metric": _Scanner._metric,
    "fraction": _Scanner._fraction,
    "class": _Scanner._class,
    "strength_class": _Scanner._class,
    "stainless": _Scanner._class,
    "grade": _Scanner._grade,
    "hardness": _Scanner._hardness,
    "by": _Scanner._by,
    "dash": _Scanner._dash,
    "sign": _Scanner._sign,
    "vickers": _Scanner._vickers,
}


def _set(reading: Reading, feature: str, value: str) -> None:
    standing = reading.features.get(feature, UNSAID)
    if standing == UNSAID:
        reading.features[feature] = value


def _coating(standing: str | None, value: str) -> str:
    """`hot dip zinc` is hot-dip galvanized whichever word comes first."""
    return "tZn" if "tZn" in (standing, value) else standing or value


def _metric_numbers(reading: Reading) -> None:
    """Tell pitch from length among the numbers after a metric diameter."""
    numbers = reading.numbers
    if not numbers:
        return
    is_pitch = _is_pitch(reading.diameter or "", numbers[0])
    no_length = reading.features.get("kind") in ("nut", "washer") or (reading.concept or "").endswith(("nut", "washer"))
    if (
        len(numbers) >= 2
        or (is_pitch and no_length)
        or (is_pitch and Decimal(numbers[0]) < Decimal(reading.diameter or "1"))
    ):
        reading.pitch = numbers.pop(0)
    if numbers and not no_length:
        reading.length = numbers.pop(0)


@lru_cache(maxsize=4096)
def _is_pitch(diameter: str, number: str) -> bool:
    try:
        find_size(Decimal(diameter), Decimal(number))
    except Refusal:
        return False
    return True
