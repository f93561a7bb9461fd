"""Cuts a text into stretches that come again and again: words in a row, a standard, a thread, a length.

Where no handler looks across, that is; `alone` finds out where one does after all, and then the cut was only in vain.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from itertools import pairwise
from typing import NamedTuple

from ..lexicon import all_terms, terms
from ..remembered import Remembered
from ..tokens import REMEMBERED, Atom, atoms
from .cursor import SKIPPED
from .words import NAMING

NUMBERS = ("number", "fraction")
#: By what a piece begins with: how it is bound to what stands before it. What is not named here is never cut off.
_FIRST = {
    **dict.fromkeys(("class", "metric", "thread", "coating", "hardness"), "start"),
    **dict.fromkeys(("standard", "body", "astm", "sae"), "name"),
    **dict.fromkeys(NUMBERS, "number"),
    "grade": "grade",
    "by": "by",
}
#: By what a piece ends with: what may be cut off behind it. Words in a row are one stretch, with the number behind one
#: that asks for it. `DIN EN` stays with its `ISO 4014`, `SAE J429` with its `GR 5`; an unknown word stays with whatever
#: may name a product, for it may make it another one.
_CUT = {
    "word": ("start", "name", "grade", "number"),
    "unknown": ("start", "name"),
    "asking": ("start", "name", "grade"),
    "body": ("start", "grade", "word"),
    "sae": ("start", "name", "word"),
    "astm": ("start", "name", "word"),
    "figure": ("start", "name", "grade", "word"),
    "size": ("start", "name", "grade", "word", "by"),
    "open": (),
}
_BITS = ("", "start", "name", "grade", "number", "word", "by")
_EVERYWHERE = -1
_ASKING = ("mark", "marker", "steel")
_SIGNS_OF_SIZES = ("MM", '"', "#")
_LOOKING_BACK = ("count", "quantity")
_GRADE_MARKS = ("GR", "GRADE", "CL", "CLASS")


class _Edges(NamedTuple):
    """What a piece begins with as a bit, nothing if it is empty; as bits what may be cut off behind it; its parts."""

    first: int
    cut: int
    parts: tuple[str, ...] | None


def stretches_of(pieces: Iterable[str]) -> list[str]:
    """Return the stretches of a text: pieces that belong together, joined by blanks."""
    found: list[str] = []
    cut = _EVERYWHERE
    for piece in pieces:
        first, behind, parts = _EDGES[piece]
        if not first:
            continue
        if parts is not None:
            piece = parts[0]
        if first & cut:
            found.append(piece)
        else:
            found[-1] = f"{found[-1]} {piece}"
        if parts is not None:
            found += parts[1:]
        cut = behind
    return found


def _edges(piece: str) -> _Edges:
    found = atoms(piece)
    if not found:
        return _Edges(0, 0, None)
    first, last = found[0], found[-1]
    if first.text == "#" and len(found) > 1:
        first = found[1]
    if last.text == '"' and len(found) > 1 and found[-2].kind in NUMBERS:
        last = found[-2]
    words = _words_of_phrases()
    behind = "size" if _is_size(found) else _last(last)
    cut = sum(1 << _BITS.index(kind) for kind in _CUT[behind])
    # Within a phrase nothing is cut: a word that may stand behind another there has a bit of its own.
    bit = 1 << _BITS.index(_first(first))
    parts = _parts(piece) if _is_size(found[:5]) or found[0].kind == "by" else (piece,)
    return _Edges(
        bit << len(_BITS) if first.text in words.behind else bit,
        cut if last.text in words.before else cut | cut << len(_BITS),
        parts if len(parts) > 1 else None,
    )


def _is_size(found: Sequence[Atom]) -> bool:
    """Whether an x with a number may go on with the size: `M10`, `1/2-13 UNC`, `x1.25`."""
    kinds = [atom.kind for atom in found if atom.text not in _SIGNS_OF_SIZES]
    dashed = len(kinds) > 2 and kinds[0] in NUMBERS and kinds[1] == "dash" and kinds[2] == "number"
    return dashed or kinds[:1] in (["metric"], ["by"]) or kinds[-1:] in (["series"], ["tolerance"])


def _parts(piece: str) -> tuple[str, ...]:
    """Part a size before each x: a thread and a length come more often than both together."""
    for at in range(1, len(piece) - 1):
        if piece[at] == "X" and piece[at + 1].isdigit():
            thread, rest = piece[:at], piece[at:]
            if atoms(thread) and atoms(thread) + atoms(rest) == atoms(piece):
                return (thread, *_parts(rest))
    return (piece,)


def _first(atom: Atom) -> str:
    if atom.kind not in ("word", "unknown"):
        return _FIRST.get(atom.kind, "")
    term = terms().get(atom.text)
    if _is_asked(atom.text) or (term is not None and (term.feature == "unit" or term.value in _LOOKING_BACK)):
        return ""
    if term is None or term.feature not in _ASKING:
        return "word"
    return "grade" if atom.text in _GRADE_MARKS or atom.text in _words_of_phrases().naming else "start"


def _last(atom: Atom) -> str:
    if atom.kind in ("body", "sae", "astm"):
        return atom.kind
    if atom.kind not in ("word", "unknown"):
        return "open" if atom.kind in SKIPPED else "figure"
    term = terms().get(atom.text)
    if term is not None and term.feature == "unit":
        return "figure"
    return "asking" if _is_asked(atom.text) or atom.text in _words_of_phrases().asking else atom.kind


def _is_asked(text: str) -> bool:
    """Whether it may belong to a standard or a grade, `JIS B 1180`, or to a quantity, `BOX OF 200`."""
    return len(text) == 1 or (text[0] == "B" and text[1:].isdigit()) or text in ("OF", "DE")


class _Words(NamedTuple):
    """Words of phrases before and behind another, first words of those that name a product; words that ask for more."""

    before: frozenset[str]
    behind: frozenset[str]
    naming: frozenset[str]
    asking: frozenset[str]


@cache
def _words_of_phrases() -> _Words:
    phrases = [term for term in all_terms() if len(term.words) > 1]
    # Words in a row are never cut apart: only a word beside something else matters.
    pairs = [pair for term in phrases for pair in pairwise(term.words) if not all(map(_is_word, pair))]
    return _Words(
        frozenset(word for word, _ in pairs),
        frozenset(word for _, word in pairs),
        frozenset(term.words[0] for term in phrases if term.feature in NAMING),
        frozenset(term.words[-1] for term in all_terms() if term.feature in _ASKING),
    )


def _is_word(text: str) -> bool:
    """Whether it is a word that stays with the words beside it."""
    term = terms().get(text)
    return text.isalpha() and len(text) > 1 and (term is None or term.feature not in (*_ASKING, "unit"))


_EDGES = Remembered(_edges, REMEMBERED)
