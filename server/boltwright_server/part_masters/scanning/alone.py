"""Scans a stretch of a text by itself, and watches what its words look for beyond it and in what is said already.

Whoever looks at nothing that another stretch answers in another way says the same in every text.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any

from ..lexicon import Phrases, Term
from ..scanned import Reading, Scanned
from ..tokens import Atom
from .cursor import SKIPPED, Cursor

#: Asked for by a size: an x without a number for it behind.
LONE_X = "lone x"
#: What a stretch may end with, as bits: an unknown word, with or without signs behind it, or a sign.
UNKNOWN, SIGN = 1, 2
_own = object.__getattribute__


class _Behind(str):
    """What stands behind the stretch: notes what it is compared with, and is none of it."""

    asked: set[Any]
    far: set[Any]

    def __eq__(self, other: object) -> bool:
        self.asked.add(other)
        return False

    def __ne__(self, other: object) -> bool:
        self.asked.add(other)
        return True

    def __hash__(self) -> int:
        self.far.add("any of several")
        return 0

    def __bool__(self) -> bool:
        self.far.add("any")
        return False


class _WatchedReading(Reading):
    """Notes the slots that are read."""

    __slots__ = ("seen",)

    def __init__(self, seen: set[str]) -> None:
        self.seen = seen
        super().__init__(features={}, unsettled=[], standards=[], used=[], left_over=[])

    def __getattribute__(self, name: str) -> Any:
        _own(self, "seen").add(name)
        return _own(self, name)


class _WatchedScanned(Scanned):
    """Notes the slots that are read."""

    __slots__ = ("seen",)

    def __init__(self, seen: set[str]) -> None:
        self.seen = seen
        super().__init__()
        self.reading = _WatchedReading(seen)

    def __getattribute__(self, name: str) -> Any:
        _own(self, "seen").add(name)
        return _own(self, name)


class Alone(Cursor):
    """Stands among the atoms of a stretch; `system` is that of the size that is said before it, if any is."""

    __slots__ = ("asked", "far", "looks_back", "reading", "seen", "told")

    def __init__(self, atoms: Sequence[Atom], system: str | None) -> None:
        #: Kinds and texts that it would take notice of right behind it.
        self.asked: set[str] = set()
        #: Names of what it looks for in what is said before it.
        self.seen: set[str] = set()
        #: Words that say something of the product, in their order.
        self.told: list[Term] = []
        #: Which of `UNKNOWN` and `SIGN` it looks for right before it.
        self.looks_back = 0
        #: The same, further away; then it means nothing by itself.
        self.far: set[str] = set()
        near, far = _Behind(), _Behind()
        near.asked, far.asked = self.asked, self.far
        near.far = far.far = self.far
        scanned = _WatchedScanned(self.seen)
        self.reading = scanned.reading
        self.reading.diameter = self.reading.system = system
        super().__init__(atoms, scanned, (near, far, far, far))
        self.seen.clear()

    @property
    def atoms(self) -> Sequence[Atom]:
        """Those of the whole text are not known."""
        self.far.add("any")
        return self._atoms

    @property
    def sized(self) -> bool:
        """Whether a size is said already: it is known of every stretch."""
        return _own(self.reading, "diameter") is not None

    def one_of(self, texts: Collection[str]) -> str:
        """Return how the next atom is written, if it is one of these; else nothing."""
        if self.at >= len(self._atoms):
            self.asked.update(texts)
        return super().one_of(texts)

    def goes_on(self) -> bool:
        """Say whether an x follows; one with a number behind it is read the same by itself, once there is a size."""
        if self.at >= len(self._atoms) and self.sized:
            self.asked.add(LONE_X)
            return False
        return super().goes_on()

    def ask(self, kind: str) -> None:
        """Say that an atom of that kind would belong to what is being read, if it followed."""
        if self.at >= len(self._atoms):
            self.asked.add(kind)

    def is_sign(self, place: int) -> bool:
        """Say whether a sign stands at an earlier place."""
        self.looks_back |= SIGN if place < 0 else 0
        return super().is_sign(place)

    def feature(self, name: str) -> str | None:
        """Return what is said of a feature so far."""
        self.seen.add(name)
        return super().feature(name)

    def tell(self, term: Term) -> None:
        """Note what a word says of the product."""
        self.told.append(term)
        super().tell(term)

    def words(self, known: Phrases) -> tuple[list[str], list[int]]:
        """Return the texts that follow, as far as the stretch goes; a phrase may go on behind it."""
        texts, places = super().words(known)
        far = len(texts)
        further = [rest[far] for rest in known.by_rest if len(rest) > far and rest[:far] == tuple(texts)]
        if further:
            self.asked.update(further, SKIPPED)
        return texts, places

    def unknown_beside(self, at: int, step: int) -> int | None:
        """Return the place of an unknown word there or behind dashes and signs, or None."""
        found = super().unknown_beside(at, step)
        if found is None and step > 0 and set(self.kinds[at : len(self._atoms)]).issubset(SKIPPED):
            self.asked.update(SKIPPED, ("unknown",))
        if found is None and step < 0 and set(self.kinds[: max(0, at + 1)]).issubset(SKIPPED):
            self.looks_back |= UNKNOWN
        return found
