"""Walks over the atoms of a text and notes what each says, looking ahead where only neighbours give it a meaning."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from decimal import Decimal
from functools import cache

from ..designations import parse_coating
from ..products.look_alikes import look_alikes
from ..quantities import Refusal
from .lexicon import Term, implied, phrases, terms
from .reading import Reading, Scanned, held_standards, is_pitch, without_zeros
from .tokens import Atom

#: Standards that say how a product is made, coated or tested, not which product it is.
_NOT_PRODUCTS = (
    *("ISO 898-1", "ISO 898-2", "ISO 898-5", "ISO 3506-1", "ISO 3506-2", "ISO 4042", "ISO 10683", "ISO 10684"),
    *("ISO 4759-1", "ISO 4759-3", "ISO 3269", "ISO 965-1", "ISO 261", "ISO 888", "ISO 9001", "DIN 267", "DIN 13"),
)
_INTERNATIONAL = ("ISO", "EN", "DIN", "ASME", "ANSI", "SAE", "ASTM")
_NATIONAL = ("BS", "UNI", "UNE", "NF", "NFE", "JIS", "GB", "GB/T", "GOST", "CSN", "ONORM")
_SKIPPED = ("dash", "sign", "other")
_FEATURES = ("kind", "drive", "form", "variant", "thread_form", "series", "other")
#: What a more special word replaces: `HEX SOCKET`, `SOCKET CAP BUTTON HEAD`, `RONDELLE PLATE LARGE`.
_WEAK_DRIVES, _WEAK_FORMS = ("hexagon",), ("cap", "flat", "plain")
#: Coatings that say more than the word beside them: `hot dip zinc`, `zinc nickel`.
_STRONGER = ("tZn", "zinc flake", "zinc nickel")
_GRADED = ("ASTM A563", "ASTM A354", "ASTM A194", "ASTM A193", "ASTM A307")
_TPI = frozenset(("4", "4.5", "5", "6", "7", "8", "9", "10", "11", "12", "13", "14", "16", "18", "20", "24", "27", "28",
                  "32", "36", "40", "44", "48", "56", "64", "72", "80"))  # fmt: skip


def scan(atoms: Sequence[Atom]) -> Scanned:
    """Return what the atoms say; numbers that could be several things wait for the end."""
    scanner = _Scanner(atoms)
    scanner.run()
    return scanner.scanned


class _Scanner:
    """A place in the atoms, and what they said so far."""

    __slots__ = ("_at", "_atoms", "scanned")

    def __init__(self, atoms: Sequence[Atom]) -> None:
        self._atoms = atoms
        self._at = 0
        self.scanned = Scanned(Reading())

    def run(self) -> None:
        atoms = self._atoms
        while self._at < len(atoms):
            atom = atoms[self._at]
            self._at += 1
            handler = _HANDLERS.get(atom.kind)
            if handler is not None:
                handler(self, atom)

    def _kind(self, ahead: int = 0) -> str:
        """The kind of a later atom; empty behind the end."""
        at = self._at + ahead
        return self._atoms[at].kind if at < len(self._atoms) else ""

    def _next(self) -> Atom:
        self._at += 1
        return self._atoms[self._at - 1]

    def _skip(self, *kinds: str) -> None:
        while self._kind() in kinds:
            self._at += 1

    def _leave(self) -> None:
        self.scanned.left.add(self._at - 1)

    # words

    def _word(self, atom: Atom) -> None:
        term = self._phrase(atom.text)
        if term is None:
            term = terms().get(atom.text)
        if term is None:
            self._leave()
        elif term.feature == "marker":
            self._marked_class()
        elif term.feature == "mark":
            _MARKS[term.value](self)
        elif term.feature == "unit":
            pass
        else:
            self._say(term)

    def _phrase(self, first: str) -> Term | None:
        """Take the longest term of several words that begins here; its word for a kind still says the kind."""
        for term in phrases().get(first, ()):
            at = self._at
            for word in term.words[1:]:
                self._skip(*_SKIPPED)
                if self._kind() == "" or self._next().text != word:
                    self._at = at
                    break
            else:
                if term.feature != "other":
                    for word in term.words:
                        known = terms().get(word)
                        if known is not None and known.feature == "kind":
                            self._say(known)
                return term
        return None

    def _say(self, term: Term) -> None:
        reading, feature, value = self.scanned.reading, term.feature, term.value
        if feature in _FEATURES:
            said = reading.features
            weak = said.get(feature) in (_WEAK_FORMS if feature == "form" else _WEAK_DRIVES)
            if feature not in said or weak:
                said[feature] = value
            if feature == "kind" and value == "bolt":
                said.setdefault("noun", "screw" if term.words[0].startswith("SCR") else "bolt")
        elif feature == "coating":
            self._coat(value)
        elif feature == "concept":
            for name, meant in implied(value).items():
                self.scanned.implied.setdefault(name, meant)
        elif feature == "steel":
            self._steel(value)

    def _coat(self, value: str) -> None:
        """A designation weighs more than words, a special word more than `zinc`."""
        reading = self.scanned.reading
        if reading.coating is None or (reading.coating not in _STRONGER and value in _STRONGER):
            reading.coating = value

    def _steel(self, value: str) -> None:
        """`A2 70` is a class; `A2` alone leaves the strength open and is left over."""
        if value == "stainless":
            return
        if self._kind() == "number" and self._atoms[self._at].value in ("50", "70", "80", "100", "035", "025"):
            self._class(Atom("class", f"{value}-{self._next().value}", ""))
        else:
            self._leave()

    def _marked_class(self) -> None:
        """`GRADE 8.8`, `CL. 10`; French also writes `classe 8-8`."""
        self._skip("sign", "other")
        if self._kind() == "number":
            number = self._next().value
            if self._kind() == "dash" and self._kind(1) == "number" and len(self._atoms[self._at + 1].value) == 1:
                self._at += 1
                number = f"{number}.{self._next().value}"
            self._class(Atom("class", number, ""))

    # standards

    def _standard(self, atom: Atom) -> None:
        name = atom.value
        base, part = name.rpartition("-")[::2]
        if part.isdigit() and base and not known_standard(name) and known_standard(base):
            name = base
            self._later(part)
        self._name(name)

    def _later(self, number: str) -> None:
        """A number that was scanned with what stands before it."""
        self.scanned.loose.append((self._at - 1, number))

    def _name(self, name: str) -> None:
        reading = self.scanned.reading
        if self._kind() == "year":
            year = self._next().value
            reading.edition = reading.edition or year
        if name not in _NOT_PRODUCTS and name not in reading.standards:
            reading.standards.append(name)

    def _body(self, atom: Atom) -> None:
        """`DIN EN ISO 4014` is ISO 4014; `BS 3692` and `EN 24014` keep their names."""
        body = atom.value
        while self._kind() == "body" or (self._kind() in _SKIPPED and self._kind(1) == "body"):
            following = self._next()
            body = following.value if following.kind == "body" and body not in ("ISO",) else body
        if self._kind() == "standard":
            return
        place = self._at
        letters = self._letters() if body in _NATIONAL else ""
        if self._kind() != "number":
            self._at = place
            return
        number = letters + self._next().value
        while self._kind() == "dash" and self._kind(1) == "number":
            longer = f"{number}-{self._atoms[self._at + 1].value}"
            if body in ("ISO", "DIN") and not known_standard(f"{body} {longer}"):
                break
            number, self._at = longer, self._at + 2
        self._name(f"{body} {number}")

    def _letters(self) -> str:
        """The letters of `JIS B 1180` and `NF E 25-112`."""
        atom = self._atoms[self._at] if self._kind() in ("word", "unknown") else None
        if atom is None or not (len(atom.text) == 1 or (atom.text[0] == "B" and atom.text[1:].isdigit())):
            return ""
        self._at += 1
        if len(atom.text) > 1:
            self._name(f"JIS {atom.text}")
            return ""
        return f"{atom.text} "

    # sizes

    def _thread(self, atom: Atom) -> None:
        if self._kind() == "number":
            self._metric(self._next())

    def _metric(self, atom: Atom) -> None:
        scanned = self.scanned
        diameter = without_zeros(atom.value)
        if scanned.reading.diameter not in (None, diameter):
            self._leave()
            return
        scanned.reading.diameter, scanned.reading.system = diameter, "metric"
        if self._kind() == "dash" and self._kind(1) == "number" and self._pitch_ahead(diameter):
            self._at += 1
            scanned.numbers.append((self._at, self._next().value))
        self._more_sizes()
        if not scanned.numbers and self._kind() == "number":
            scanned.behind_size = self._at

    def _pitch_ahead(self, diameter: str) -> bool:
        number = self._atoms[self._at + 1].value
        return self._kind(2) == "by" or (is_pitch(diameter, number) and Decimal(number) < 4)

    def _more_sizes(self) -> None:
        """Take every `x 1.25`, `x 60` that follows."""
        while self._kind() == "by":
            self._at += 1
            value = self._inch_value() if self.scanned.reading.system == "inch" else self._plain_number()
            if value is None:
                return
            self.scanned.numbers.append((self._at - 1, value))
            self._skip_unit()

    def _plain_number(self) -> str | None:
        return self._next().value if self._kind() == "number" else None

    def _skip_unit(self) -> None:
        if self._kind() in ("word", "sign") and self._atoms[self._at].text in ("MM", "IN", "INCH", '"'):
            self._at += 1

    def _by(self, atom: Atom) -> None:
        if self.scanned.reading.diameter is not None:
            self._at -= 1
            self._more_sizes()

    def _length(self) -> None:
        """`L=60`, `LG 60`, or `60 LONG` with the number before."""
        self._skip("sign", "other")
        value = self._inch_value() if self.scanned.reading.system == "inch" else self._plain_number()
        if value is None and self.scanned.loose:
            value = self.scanned.loose.pop()[1]
        if value is not None and self.scanned.reading.length is None:
            self.scanned.reading.length = without_zeros(value) if self.scanned.reading.system == "metric" else value
        self._skip_unit()

    def _pitch(self) -> None:
        if self._kind() == "number":
            self.scanned.reading.pitch = self.scanned.reading.pitch or without_zeros(self._next().value)
            self._more_sizes()

    def _quantity(self) -> None:
        """`PK 100`, `BOX OF 200`, `100/BOX`: how many are packed together says nothing of the part."""
        place = self._at
        while self._kind() == "word" and self._atoms[self._at].text in ("OF", "DE"):
            self._at += 1
        if self._kind() == "number":
            self._at += 1
            return
        self._at = place
        before = self.scanned.loose[-1:]
        if before and place - 3 <= before[0][0]:
            self.scanned.loose.pop()

    # inches

    def _inch(self, atom: Atom) -> None:
        """A number or fraction: the start of an inch size where threads per inch follow, else a loose number."""
        scanned, place = self.scanned, self._at
        self._at -= 1
        if scanned.reading.diameter is None and self._inch_size():
            return
        self._at = place
        if atom.kind == "fraction":
            self._loose_fraction(atom)
        elif scanned.reading.diameter is None and self._kind() == "by" and self._kind(1) == "number":
            numbers = [atom.value]
            while self._kind() == "by" and self._kind(1) == "number":
                self._at += 1
                numbers.append(self._next().value)
            scanned.bare_size = scanned.bare_size or (place - 1, numbers)
        else:
            scanned.loose.append((place - 1, atom.value))

    def _loose_fraction(self, atom: Atom) -> None:
        if self.scanned.reading.diameter is None:
            self.scanned.reading.diameter, self.scanned.reading.system = atom.value.replace("-", " "), "inch"
            self._skip_unit()
            self._more_sizes()
        else:
            self._leave()

    def _inch_size(self) -> bool:
        numbered = self._kind() == "sign" and self._atoms[self._at].text == "#"
        self._at += numbered
        diameter = self._inch_value()
        if diameter is None:
            return False
        self._skip_unit()
        dashed = self._kind() == "dash"
        self._at += dashed
        if self._kind() != "number" or not (dashed or self._kind(1) in ("by", "series")):
            return False
        count, size = self._next().value, _inch_diameter(diameter, numbered)
        if size is None or count not in _TPI:
            return False
        reading = self.scanned.reading
        reading.diameter, reading.pitch, reading.system = size, count, "inch"
        self._skip("series")
        if self._kind() == "dash" and self._kind(1) == "tolerance":
            self._at += 2
        self._more_sizes()
        return True

    def _inch_value(self) -> str | None:
        """`2`, `3/4`, `2 1/2`, `2-1/2`, `.750`."""
        if self._kind() == "fraction":
            return self._next().value.replace("-", " ")
        if self._kind() != "number":
            return None
        whole = self._next().value
        dashed = self._kind() == "dash" and self._kind(1) == "fraction"
        if whole.isdigit() and (self._kind() == "fraction" or dashed):
            self._at += dashed
            return f"{whole} {self._next().value}"
        return whole

    def _sign(self, atom: Atom) -> None:
        if atom.text == "#" and self.scanned.reading.diameter is None:
            self._at -= 1
            place = self._at
            if not self._inch_size():
                self._at = place + 1

    # classes and coatings

    def _class(self, atom: Atom) -> None:
        reading = self.scanned.reading
        if reading.property_class is None and reading.grade is None:
            reading.property_class = atom.value
        elif reading.property_class != atom.value:
            self._leave()

    def _grade(self, atom: Atom) -> None:
        if self.scanned.reading.property_class is None:
            self.scanned.reading.grade = self.scanned.reading.grade or atom.value

    def _sae(self, atom: Atom) -> None:
        if self._kind() in ("number", "grade"):
            self._grade(self._next())

    def _astm(self, atom: Atom) -> None:
        name = atom.value
        self._skip("dash")
        if name in _GRADED and (self._kind() == "nut_grade" or self._one_letter()):
            name = f"{name} {self._next().text}"
        self._grade(Atom("grade", name, ""))

    def _one_letter(self) -> bool:
        return self._kind() in ("word", "unknown") and self._atoms[self._at].text in ("A", "B", "C", "D")

    def _nut_grade(self, atom: Atom) -> None:
        if atom.text == "2H":
            self._grade(Atom("grade", "ASTM A194 2H", ""))
        else:
            self._leave()

    def _hardness(self, atom: Atom) -> None:
        self.scanned.reading.hardness = atom.value

    def _vickers(self, atom: Atom) -> None:
        if self._kind() == "number":
            self.scanned.reading.hardness = self._next().value
        elif self.scanned.loose:
            self.scanned.reading.hardness = self.scanned.loose.pop()[1]

    def _coating(self, atom: Atom) -> None:
        self.scanned.reading.coating = _coating_name(atom.text)


@cache
def known_standard(name: str) -> bool:
    """Say whether a standard is held, or known as a former one, or as one that names no product."""
    former = {one.former for one in look_alikes()}
    return name in held_standards() or name in former or name in _NOT_PRODUCTS


def _inch_diameter(diameter: str, numbered: bool) -> str | None:
    """Return the diameter as it is asked for, None where it cannot be one: screws have numbers to 12, inches to 4."""
    if numbered:
        return f"#{diameter}" if diameter.isdigit() else None
    if diameter.isdigit():
        return diameter if int(diameter) <= 12 else None
    return diameter if "/" in diameter or Decimal(diameter) <= 4 else None


@cache
def _coating_name(text: str) -> str:
    """Return a coating as its standard designates it; as it stands where no standard does."""
    try:
        return parse_coating(text).designation
    except Refusal:
        return text


_MARKS: dict[str, Callable[[_Scanner], None]] = {
    "length": _Scanner._length,
    "pitch": _Scanner._pitch,
    "quantity": _Scanner._quantity,
}
_HANDLERS: dict[str, Callable[[_Scanner, Atom], None]] = {
    "word": _Scanner._word,
    "unknown": _Scanner._word,
    "standard": _Scanner._standard,
    "body": _Scanner._body,
    "thread": _Scanner._thread,
    "metric": _Scanner._metric,
    "by": _Scanner._by,
    "number": _Scanner._inch,
    "fraction": _Scanner._inch,
    "sign": _Scanner._sign,
    "class": _Scanner._class,
    "grade": _Scanner._grade,
    "sae": _Scanner._sae,
    "astm": _Scanner._astm,
    "nut_grade": _Scanner._nut_grade,
    "hardness": _Scanner._hardness,
    "vickers": _Scanner._vickers,
    "coating": _Scanner._coating,
}
