"""Words and phrases of the lexicon."""

from __future__ import annotations

import re
from collections.abc import Callable

from ..lexicon import Term, implied, kinds_in, phrases, terms
from ..scanned import Unsettled
from ..tokens import Atom
from . import sizes
from .classes import coat, grade, marked_class, property_class, steel
from .cursor import SKIPPED, Cursor
from .standards import own_standard, worded_edition

_FEATURES = ("kind", "drive", "form", "variant", "thread_form", "series", "other", "hand")
#: What names a product; an unknown word beside it says more. In German and English it stands before, else behind.
_NAMING = ("kind", "drive", "form", "variant", "concept", "part")
_ADJECTIVE_FIRST = ("en", "de")
_LEAST_WORD = 3
_HARD_CLASSES = ("14", "22", "33", "45")
_LENGTH = re.compile(r"LG?([1-9]\d{0,3})")
_FLATS = re.compile(r"(?:SW|AF)(\d{1,3})")
#: What a more special word replaces: `HEX SOCKET`, `SOCKET CAP BUTTON HEAD`, `RONDELLE PLATE LARGE`.
_WEAK_DRIVES, _WEAK_FORMS = ("hexagon",), ("cap", "flat", "plain")


def _purpose(cursor: Cursor) -> None:
    """`SPACER FOR M10 BOLT`: where only strange words stand before it, what follows is not the part."""
    scanned = cursor.scanned
    reading = scanned.reading
    said = reading.features or scanned.implied or reading.standards or reading.diameter or scanned.loose
    if said:
        reading.features["purpose"] = "said"
    words = [atom.text for atom in cursor.atoms[: cursor.at - 1] if atom.kind == "unknown" and len(atom.text) > 2]
    if words and not said:
        given = " ".join(words)
        detail = f"{given} is not understood; what stands behind {cursor.atoms[cursor.at - 1].text} is what it is for"
        reading.unsettled.append(Unsettled("description", given, detail))


#: `HEAVY HEX JAM NUT` is a form of its own.
_HEAVY_JAM = {"heavy", "thin"}


def _similar(cursor: Cursor) -> None:
    """`SIMILAR TO DIN 933`, `SPECIAL`: the part is like what is named, and not it."""
    given = cursor.atoms[cursor.at - 1].text
    detail = f"{given}: the part is like what the text names, and differs from it; name what it is"
    cursor.scanned.reading.unsettled.append(Unsettled("description", given, detail))


def _choice(cursor: Cursor) -> None:
    """`8 OR 10`: one part number for one of several parts."""
    given = cursor.atoms[cursor.at - 1].text
    detail = f"{given}: the text leaves a choice; each part needs a number of its own"
    cursor.scanned.reading.unsettled.append(Unsettled("description", given, detail))


_MARKS: dict[str, Callable[[Cursor], None]] = {
    "similar": _similar,
    "choice": _choice,
    "purpose": _purpose,
    "length": sizes.length,
    "pitch": sizes.pitch,
    "quantity": sizes.quantity,
    "flats": sizes.flats,
    "count": sizes.count,
    "edition": worded_edition,
}


def word(cursor: Cursor, atom: Atom) -> None:
    """Read a word, or the phrase that it begins; what the lexicon does not hold is left over."""
    start = cursor.at - 1
    term = _phrase(cursor, atom.text)
    if term is None:
        term = terms().get(atom.text)
    if term is None:
        _strange(cursor, atom)
        return
    if term.feature == "modifier":
        cursor.leave()
        cursor.scanned.doubts.append(cursor.at - 1)
        return
    if term.feature in _NAMING:
        _doubt(cursor, start, term)
    _take(cursor, term)


def _strange(cursor: Cursor, atom: Atom) -> None:
    """What the lexicon does not hold is left over; but own standards, `SW17` and `L60` are understood."""
    if own_standard(cursor, atom.text):
        return
    flats, length = _FLATS.fullmatch(atom.text), _LENGTH.fullmatch(atom.text)
    reading = cursor.scanned.reading
    if flats is not None:
        sizes.flats_are(cursor, flats[1])
    elif length is not None and reading.system == "metric" and reading.length is None and not cursor.scanned.numbers:
        reading.length = length[1]
    else:
        cursor.leave()


def _doubt(cursor: Cursor, start: int, term: Term) -> None:
    """An unknown word beside the name may make it another product: `SERRATED FLANGE NUT`, `ECROU CRENELE`."""
    after = term.feature in ("kind", "part") and term.language not in _ADJECTIVE_FIRST
    at, step = (cursor.at, 1) if after else (start - 1, -1)
    while 0 <= at < len(cursor.atoms) and cursor.atoms[at].kind in SKIPPED:
        at += step
    if 0 <= at < len(cursor.atoms):
        kind, text = cursor.atoms[at].kind, cursor.atoms[at].text
        if kind == "unknown" and len(text) >= _LEAST_WORD and text.isalpha():
            cursor.scanned.doubts.append(at)


def number(cursor: Cursor, atom: Atom) -> None:
    """Read a number; a few phrases begin with one, `6 PANS CREUX`."""
    if atom.text in _HARD_CLASSES and cursor.kind() in ("word", "unknown") and cursor.text() == "H":
        cursor.at += 1
        property_class(cursor, Atom("class", f"{atom.text}H", ""))
        return
    term = _phrase(cursor, atom.text)
    if term is None:
        sizes.inch(cursor, atom)
    else:
        _take(cursor, term)


def _take(cursor: Cursor, term: Term) -> None:
    if term.feature == "marker":
        marked_class(cursor)
    elif term.feature == "mark":
        _MARKS[term.value](cursor)
    elif term.feature != "unit":
        _say(cursor, term)


def _phrase(cursor: Cursor, first: str) -> Term | None:
    """Take the longest term of several words that begins here; its word for a kind still says the kind."""
    known = phrases().get(first)
    if known is None:
        return None
    following, places = cursor.words(known.longest)
    for count in range(len(following), 0, -1):
        term = known.by_rest.get(tuple(following[:count]))
        if term is not None:
            cursor.at = places[count - 1]
            if term.feature not in ("other", "noise"):
                for kind in kinds_in(term.words):
                    _say(cursor, kind)
            return term
    return None


def _first_kind(cursor: Cursor, value: str, feature: str) -> bool:
    """Say whether a kind agrees with the one that was named first; a set of a bolt and a nut is two parts."""
    kind = value if feature == "kind" else implied(value)["kind"]
    features = cursor.scanned.reading.features
    first = features.get("kind") or cursor.scanned.implied.get("kind") or kind
    if first != kind and "purpose" not in features:
        features.setdefault("also", kind)
    return first == kind


def _say(cursor: Cursor, term: Term) -> None:
    feature, value = term.feature, term.value
    if feature in ("kind", "concept") and not _first_kind(cursor, value, feature):
        return
    if feature in _FEATURES:
        _feature(cursor.scanned.reading.features, term)
    elif feature == "concept":
        for name, meant in implied(value).items():
            cursor.scanned.implied.setdefault(name, meant)
    elif feature == "coating":
        coat(cursor, value)
    elif feature == "grade":
        grade(cursor, Atom("grade", value, ""))
    elif feature == "steel":
        steel(cursor, value)


def _feature(said: dict[str, str], term: Term) -> None:
    """The first word counts, a more special one replaces it."""
    feature, value = term.feature, term.value
    weak = said.get(feature) in (_WEAK_FORMS if feature == "form" else _WEAK_DRIVES)
    if feature not in said or weak:
        said[feature] = value
    elif {said[feature], value} == _HEAVY_JAM:
        said[feature] = "heavy_thin"
    if feature == "kind" and value == "bolt":
        said.setdefault("noun", "screw" if term.words[0].startswith("SCR") else "bolt")
