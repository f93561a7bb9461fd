"""Reads a text stretch by stretch: what each says by itself is scanned once, remembered, and added up.

A catalogue says `HEX BOLT`, `ISO 4014` and `X60 MM` over and over, each time in other company. Where one stretch looks
for what another one says, the whole text is scanned in order instead.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache, partial

from ..lexicon import Term
from ..remembered import Remembered
from ..scanned import Reading, Scanned, accounted
from ..tokens import Atom, atoms
from . import walk
from .alone import LONE_X, SIGN, UNKNOWN, Alone
from .cursor import SKIPPED
from .cuts import NUMBERS, stretches_of
from .features import tell

#: Some 1.5 KiB each, for each system: 200 000 rows in five languages hold 14 000 before a size, 4 000 behind it.
_REMEMBERED = 16_384
#: What a stretch says is taken over as it is, or added up; of anything else nothing is known here.
_SLOTS = ("diameter", "system", "pitch", "length", "property_class", "grade", "hardness", "coating", "edition")
_ADDED = ("features", "implied", "standards", "unsettled")
_PLACES = ("numbers", "loose", "bare_size", "behind_size", "size_at", "left", "doubts")


@dataclass(slots=True)
class Stretch:
    """What a stretch says by itself; places count from its start.

    As bits: `says` what it says, `behind` what it would take notice of behind it; `meets` what it looks for in what is
    said before it, and how it begins, for the one before. `first` and `asked` are the latter with texts.
    """

    atoms: int
    meets: int
    says: int
    behind: int
    first: tuple[str, ...]
    asked: frozenset[str]
    slots: tuple[tuple[str, str], ...]
    #: Words that say something of the product, and what they say together where nothing is said before them.
    told: tuple[Term, ...]
    features: dict[str, str]
    implied: dict[str, str]
    used: tuple[str, ...]
    #: Whether it says any of the following.
    more: bool
    size_at: int
    standards: tuple[str, ...]
    numbers: tuple[tuple[int, str], ...]
    rest: Scanned | None


def scan_pieces(pieces: Iterable[str]) -> Scanned | None:
    """Return what the pieces of a text say, with the words used, or None where the text must be read as a whole."""
    scanned = Scanned()
    reading = scanned.reading
    features, implied, used = reading.features, scanned.implied, reading.used
    asked: frozenset[str] = frozenset()
    place, said, barrier, stretches = 0, _ALWAYS, _ALWAYS, _STRETCHES[None]
    for text in stretches_of(pieces):
        stretch = stretches[text]
        met = stretch.meets & barrier
        if met and (met != _TEXT or not asked.isdisjoint(stretch.first)):
            return None
        asked = stretch.asked
        said |= stretch.says
        barrier = said | stretch.behind
        for slot, value in stretch.slots:
            setattr(reading, slot, value)
        if features or implied:
            for term in stretch.told:
                tell(features, implied, term)
        elif stretch.told:
            features.update(stretch.features)
            implied.update(stretch.implied)
        if stretch.more:
            _add(scanned, stretch, place)
            stretches = _STRETCHES[reading.system]
        used += stretch.used
        place += stretch.atoms
    return scanned


def _add(scanned: Scanned, stretch: Stretch, place: int) -> None:
    scanned.reading.standards += stretch.standards
    for at, number in stretch.numbers:
        scanned.numbers.append((place + at, number))
    if stretch.size_at:
        scanned.size_at = place + stretch.size_at
    if stretch.rest is not None:
        _add_rest(scanned, stretch.rest, place)


def _add_rest(scanned: Scanned, rest: Scanned, place: int) -> None:
    scanned.reading.left_over += rest.reading.left_over
    scanned.reading.unsettled += rest.reading.unsettled
    scanned.left.update([place + at for at in rest.left])
    scanned.loose += [(place + at, number) for at, number in rest.loose]
    scanned.doubts += [place + at for at in rest.doubts]
    if rest.behind_size is not None:
        scanned.behind_size = place + rest.behind_size
    if rest.bare_size is not None:
        scanned.bare_size = place + rest.bare_size[0], rest.bare_size[1]


def _stretch(text: str, system: str | None) -> Stretch:
    """Scan a stretch by itself, in a text that has said a size of that system already, or none."""
    found = [atom for piece in text.split(" ") for atom in atoms(piece)]
    alone = Alone(found, system)
    walk(alone, len(found))
    return _noted(alone, found, system)


def _noted(alone: Alone, found: Sequence[Atom], system: str | None) -> Stretch:
    # Past whoever watches the slots; of every stretch the system of the size before it is known.
    seen = _bits(frozenset(alone.seen - _KNOWN))
    scanned, reading = alone.scanned, alone.reading
    if system is not None:
        reading.diameter = reading.system = None
    filled = [(slot, said) for slot, get in _READING if (said := get(reading))]
    names = {slot for slot, _ in filled}
    names.update([slot for slot, get in _SCANNED if get(scanned)])
    first, asked = _first(found, alone), frozenset(alone.asked)
    known = not alone.far and names <= _TAKEN and _only_told(alone)
    used, left_over = accounted(found, alone.left)
    return Stretch(
        len(found),
        seen | _kinds(frozenset(first[::2])) | _TEXT | alone.looks_back if known else _ALWAYS,
        _bits(frozenset(names.union(alone.features))),
        _kinds(asked) | _ends(found),
        first,
        asked,
        tuple([one for one in filled if one[0] in _SLOTS]),
        tuple(alone.told),
        alone.features,
        alone.implied,
        tuple(used),
        not names <= _OFTEN,
        scanned.size_at,
        tuple(reading.standards),
        tuple(alone.numbers),
        None if names <= _USUAL else _rest(scanned, left_over),
    )


def _only_told(alone: Alone) -> bool:
    """Whether what is said of the product comes from words that can be told again."""
    if not (alone.told or alone.features or alone.implied):
        return True
    features: dict[str, str] = {}
    implied: dict[str, str] = {}
    for term in alone.told:
        tell(features, implied, term)
    return features == alone.features and implied == alone.implied


def _first(found: Sequence[Atom], alone: Alone) -> tuple[str, ...]:
    """Return how a stretch begins; an x without a number, or one of a strange unit, ends the size before it."""
    kind, text = found[0].kind, found[0].text
    size = len(found) > 1 and found[1].kind in NUMBERS and alone.numbers and not alone.reading.unsettled
    return (kind, text, LONE_X) if kind == "by" and not size else (kind, text)


def _ends(found: Sequence[Atom]) -> int:
    last = next((atom.kind for atom in reversed(found) if atom.kind not in SKIPPED), "unknown")
    return (UNKNOWN if last == "unknown" else 0) | (SIGN if found[-1].kind == "sign" else 0)


def _rest(scanned: Scanned, left_over: list[str]) -> Scanned:
    rest = Scanned()
    rest.reading.left_over, rest.reading.unsettled = left_over, scanned.reading.unsettled
    for slot in ("left", "loose", "doubts", "behind_size", "bare_size"):
        setattr(rest, slot, getattr(scanned, slot))
    return rest


#: Bits beside those of `alone`: what is met always, so that the whole text is scanned; any text, and its letters count.
_ALWAYS, _TEXT, _FIRST_FREE = 4, 8, 16
_bit_of: dict[str, int] = {}


@cache
def _bits(names: frozenset[str]) -> int:
    """Return names as bits."""
    bits = 0
    for name in names:
        bits |= _bit_of.setdefault(name, _FIRST_FREE << len(_bit_of))
    return bits


@lru_cache(maxsize=4096)
def _kinds(asked: frozenset[str]) -> int:
    """Return kinds of atoms as bits, and one for all texts; these are in capitals."""
    kinds = frozenset(f"kind {name}" for name in asked if name.islower())
    return _bits(kinds) | (_TEXT if len(kinds) < len(asked) else 0)


_READING = [(slot, vars(Reading)[slot].__get__) for slot in Reading.__slots__]
_SCANNED = [(slot, vars(Scanned)[slot].__get__) for slot in Scanned.__slots__ if slot != "reading"]
_KNOWN = {"system", "reading"}
_TAKEN = frozenset((*_SLOTS, *_ADDED, *_PLACES))
_OFTEN = frozenset((*_SLOTS[2:], "features", "implied"))
_USUAL = _OFTEN.union(("diameter", "system", "size_at", "standards", "numbers"))
#: By the system of the size that is said before the stretch.
_STRETCHES = {system: Remembered(partial(_stretch, system=system), _REMEMBERED) for system in (None, "metric", "inch")}
