"""What a text names beside the part: what it is sold with, what it is for, where it goes."""

from __future__ import annotations

from ..lexicon import Term
from .cursor import SKIPPED, Cursor

#: Values of words for things that are no fasteners: beside a standard they say where the part goes.
NO_FASTENERS = ("no fastener", "tool", "hose part")
#: Words and signs between a part and what it is sold with.
_JOINING = frozenset(("WITH", "AND", "INCL", "MIT", "UND", "INKL", "AVEC", "ET", "CON", "Y", "E", "+", "&", "C/W"))
_SOLD_WITH = (" nut", " washer", " spring", "pin", "anchor", "clip")
#: Nobody writes more words between the two: `MIT 1 SECHSKANT MUTTER`.
_FARTHEST = 5


def is_the_part(cursor: Cursor, term: Term) -> bool:
    """Whether a word for a product of which no standard is held names the part; what else it says is noted."""
    scanned = cursor.scanned
    features = scanned.reading.features
    if "purpose" in features:
        return False
    if term.value.endswith(_SOLD_WITH) and joined(cursor):
        features.setdefault("also", term.value)
        return False
    if term.value in NO_FASTENERS:
        places = [at for at in range(cursor.at) if cursor.kinds[at] not in SKIPPED]
        scanned.no_fastener.update(places[-len(term.words) :])
    return True


def joined(cursor: Cursor) -> bool:
    """Whether a word that joins two parts stands before the name that was taken last: `MIT MUTTER`, `+ 1 HEX NUT`."""
    for atom in reversed(cursor.atoms[max(0, cursor.at - 1 - _FARTHEST) : cursor.at - 1]):
        if atom.text in _JOINING:
            return True
        if atom.kind not in ("word", "unknown", "number", "dash"):
            return False
    return False
