"""Words and phrases of the lexicon."""

from __future__ import annotations

import re
from collections.abc import Callable

from ..lexicon import Term, implied, kinds_in, phrases, terms
from ..scanned import Unsettled
from ..tokens import Atom
from . import sizes
from .beside import is_the_part, joined
from .classes import CURRENCIES, coat, grade, marked_class, price, property_class, steel, thickness
from .cursor import SKIPPED, Cursor
from .standards import own_standard, worded_edition

_FEATURES = ("kind", "drive", "form", "variant", "thread_form", "series", "other", "hand")
#: What names a product; an unknown word beside it says more. In German and English it stands before, else behind.
_NAMING = ("kind", "drive", "form", "variant", "concept", "part")
_ADJECTIVE_FIRST = ("en", "de")
_LEAST_WORD = 3
_HARD_CLASSES = ("14", "22", "33", "45")
_LENGTH = re.compile(r"LG?([1-9]\d{0,3})")
_FLATS = re.compile(r"(?:SW|AF|CH|WAF)(\d{1,3})")
#: `SS316`, `AISI304L`: steels by their numbers of wrought alloys; `1.4301` by their numbers of EN 10088-1.
_ALLOY = re.compile(r"(?:SS|AISI|INOX|S)?(?:30[1-5]|31[0-9]|321|410|416|430)(?:L|TI)?")
_MATERIAL = re.compile(r"1\.4[0-9]{3}")
#: What a negation may stand before: `WITHOUT FLANGE`, `NOT PLATED`, `SANS ECROU`.
_NEGATED = ("form", "variant", "thread_form", "coating", "kind", "concept", "drive", "other", "part", "noise", "series")
_OTHER_WAY = {"full": "partial", "partial": "full"}
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


def _negation(cursor: Cursor) -> None:
    """`WITHOUT FLANGE`, `OHNE FASE`, `NON ZINGUEE`: the word that follows is taken back."""
    place = cursor.at - 1
    while cursor.kinds[cursor.at] in SKIPPED:
        cursor.at += 1
    term = _next_term(cursor)
    if term is None or term.feature not in _NEGATED:
        cursor.at = place + 1
        cursor.leave()
        if cursor.atoms[place].text == "SIN" and cursor.kind() not in ("word", "unknown"):
            _without_or_left(cursor)
        return
    _take_back(cursor, term)


def _take_back(cursor: Cursor, term: Term) -> None:
    """Note that what a word says is not so."""
    reading = cursor.scanned.reading
    if term.feature in ("form", "variant"):
        reading.features.setdefault("without", term.value)
    elif term.feature == "thread_form":
        reading.features.setdefault("thread_form", _OTHER_WAY[term.value])
    elif term.feature == "coating" or term.words[0] in _PLATED:
        reading.coating = reading.coating or "plain"


def _without_or_left(cursor: Cursor) -> None:
    """`SIN` is without in Spanish, short for sinistro in Italian: alone it may be a left-hand thread."""
    detail = "SIN is 'without' in Spanish and short for left-hand in Italian: write LH, or what the part is without"
    cursor.scanned.reading.unsettled.append(Unsettled("thread", "SIN", detail))


_PLATED = ("PLATED", "PLTD", "COATED", "COATING", "FINISH", "PLT", "ELECTROPLATED")


def _next_term(cursor: Cursor) -> Term | None:
    """Take the word or phrase that follows, if the lexicon holds it."""
    if cursor.kind() not in ("word", "unknown"):
        return None
    first = cursor.next().text
    return _longest(cursor, first) or terms().get(first)


def _side(cursor: Cursor) -> None:
    """`LINKS`, `GAUCHE`, `SX`: a left-hand thread, or a place: `LINKS OBEN`, `PHARE GAUCHE`, `FUER TUER LINKS`."""
    place = cursor.at - 1
    beside = [cursor.atoms[at] for at in (_beside(cursor, place, -1), _beside(cursor, place, 1)) if at is not None]
    strange = any(one.kind == "unknown" and one.text.isalpha() and len(one.text) > 1 for one in beside)
    of_thread = any(one.text in _THREADS for one in beside)
    if of_thread or not (strange or "purpose" in cursor.scanned.reading.features or _only_of_thread(cursor, place)):
        cursor.scanned.reading.features.setdefault("hand", "left")
    else:
        cursor.leave()


def _only_of_thread(cursor: Cursor, place: int) -> bool:
    """Whether a word says a hand only beside a word for a thread: `INVERSE`, `REVERSED`."""
    return cursor.atoms[place].text.startswith(("INVER", "REVERS"))


#: What a left hand is called in five languages, and words for threads that stand beside it.
_LEFT = re.compile(
    r"LINK(?:S|E|ES|ER|SGANG[A-Z]*)|GAUCHES?|IZQ[A-Z]*|IZDAS?|ZURD[AO]S?|SINISTR[A-Z]*|INVERS[AEO]S?"
    r"|INVERTID[AO]|REVERSED?"
)
_THREADS = frozenset(
    (
        "THREAD",
        "THREADED",
        "THD",
        "THRD",
        "GEWINDE",
        "GEW",
        "FILET",
        "FILETAGE",
        "FILETEE",
        "FIL",
        "PAS",
        "ROSCA",
        "PASO",
        "FILETTO",
        "FILETTATURA",
        "FILETT",
        "PASSO",
    )
)


def _beside(cursor: Cursor, place: int, step: int) -> int | None:
    """Return the place of the next atom to one side that is no sign, or None."""
    at = place + step
    while 0 <= at < len(cursor.atoms) and cursor.atoms[at].kind in SKIPPED:
        at += step
    return at if 0 <= at < len(cursor.atoms) else None


def _type(cursor: Cursor) -> None:
    """`TYPE 1 7/8-9`: the type of a grade or style is no part of the size."""
    if cursor.kind() == "number" and cursor.text() in ("1", "2", "3"):
        cursor.at += 1


def _languages(cursor: Cursor) -> set[str]:
    """Return the languages of the other words of the text that name something."""
    known = (terms().get(atom.text) for atom in cursor.atoms)
    return {term.language for term in known if term is not None and term.feature != "mark"}


def _alloy(cursor: Cursor) -> None:
    """`AISI 304`: a stainless steel by its number; `AISI 4140` is another one."""
    if cursor.kind() == "number" and _ALLOY.fullmatch(cursor.text()) is not None:
        steel(cursor, cursor.next().text)
    else:
        cursor.leave()


def _full_or_countersunk(cursor: Cursor) -> None:
    """`TF` is tutta filettata in Italian, tete fraisee in French: other words of the text say which."""
    spoken = _languages(cursor)
    italian, french = "it" in spoken, "fr" in spoken
    if italian == french:
        cursor.leave()
    elif italian:
        cursor.scanned.reading.features.setdefault("thread_form", "full")
    else:
        cursor.scanned.reading.features.setdefault("form", "countersunk")


def _socket_or_hexagon(cursor: Cursor) -> None:
    """`SKT` is Sechskant in German, socket in English: other words of the text say which, else the standard."""
    spoken = _languages(cursor)
    if "de" in spoken and "en" not in spoken:
        cursor.scanned.reading.features.setdefault("drive", "hexagon")
    elif "en" in spoken and "de" not in spoken:
        _feature(cursor.scanned.reading.features, Term("drive", "socket", ("SKT",), "en"))
    else:
        cursor.scanned.by_standard.add(cursor.at - 1)
        cursor.scanned.doubts.append(cursor.at - 1)


_MARKS: dict[str, Callable[[Cursor], None]] = {
    "negation": _negation,
    "side": _side,
    "type": _type,
    "tf": _full_or_countersunk,
    "skt": _socket_or_hexagon,
    "thickness": thickness,
    "alloy": _alloy,
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
    if _ALLOY.fullmatch(atom.text) is not None:
        steel(cursor, atom.text)
        return
    if _LEFT.fullmatch(atom.text) is not None:
        _side(cursor)
        return
    if atom.text in CURRENCIES:
        price(cursor)
        return
    taken_back = terms().get(atom.text[2:]) if atom.text.startswith("UN") else None
    if taken_back is not None and taken_back.feature in ("form", "variant", "coating"):
        _take_back(cursor, taken_back)
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
    if _MATERIAL.fullmatch(atom.text) is not None:
        steel(cursor, atom.text)
        return
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
    term = _longest(cursor, first)
    if term is not None and term.feature not in ("other", "noise", "label", "mark"):
        for kind in kinds_in(term.words):
            _say(cursor, kind)
    return term


def _longest(cursor: Cursor, first: str) -> Term | None:
    known = phrases().get(first)
    if known is None:
        return None
    following, places = cursor.words(known.longest)
    for count in range(len(following), 0, -1):
        term = known.by_rest.get(tuple(following[:count]))
        if term is not None:
            cursor.at = places[count - 1]
            return term
    return None


def _first_kind(cursor: Cursor, value: str, feature: str) -> bool:
    """Say whether a kind agrees with the one that was named first; a set of a bolt and a nut is two parts."""
    kind = value if feature == "kind" else implied(value)["kind"]
    features = cursor.scanned.reading.features
    first = features.get("kind") or cursor.scanned.implied.get("kind")
    if "purpose" in features:
        return False
    if first is None:
        first = "" if joined(cursor) else kind
    if first != kind:
        features.setdefault("also", kind)
    return first == kind


def _say(cursor: Cursor, term: Term) -> None:
    feature, value = term.feature, term.value
    if feature in ("kind", "concept") and not _first_kind(cursor, value, feature):
        return
    if feature == "other" and not is_the_part(cursor, term):
        return
    if feature == "drive" and term.words == ("CH",) and cursor.kind(cursor.kind() in SKIPPED) == "number":
        # `CH 19` is the key in Italian, `CH` the hexagon head in Spanish.
        sizes.flats(cursor)
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


#: Words for a bolt, or for a screw, alone; `SCHRAUBE`, `VIS`, `TORNILLO` and `VITE` are both.
_NOUNS = re.compile("SCR|BOLT|BOULON|PERNO|BULLON")


def _feature(said: dict[str, str], term: Term) -> None:
    """The first word counts, a more special one replaces it."""
    feature, value = term.feature, term.value
    weak = said.get(feature) in (_WEAK_FORMS if feature == "form" else _WEAK_DRIVES)
    if feature not in said or weak:
        said[feature] = value
    elif {said[feature], value} == _HEAVY_JAM:
        said[feature] = "heavy_thin"
    if feature == "kind" and value == "bolt":
        noun = _NOUNS.match(term.words[0])
        if noun is not None:
            said.setdefault("noun", "screw" if noun[0] == "SCR" else "bolt")
