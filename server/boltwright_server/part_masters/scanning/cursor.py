"""A place among the atoms of a text, and what they said so far."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from ..lexicon import Phrases, Term
from ..scanned import Scanned
from ..tokens import Atom
from .features import tell

#: Between the words of a phrase.
SKIPPED = ("dash", "sign", "other")
#: Nobody looks further ahead.
_BEHIND_THE_END = ("",) * 4


class Cursor:
    """Stands behind the atom that is being read."""

    __slots__ = ("_atoms", "at", "features", "implied", "kinds", "left", "numbers", "scanned")

    def __init__(self, atoms: Sequence[Atom], scanned: Scanned, behind: Sequence[str] = _BEHIND_THE_END) -> None:
        self._atoms = atoms
        self.kinds = [*(atom.kind for atom in atoms), *behind]
        self.at = 0
        self.scanned = scanned
        self.features = scanned.reading.features
        self.implied = scanned.implied
        self.left = scanned.left
        self.numbers = scanned.numbers

    @property
    def atoms(self) -> Sequence[Atom]:
        """Every atom of the text, also those far away."""
        return self._atoms

    @property
    def sized(self) -> bool:
        """Whether a size is said already."""
        return self.scanned.reading.diameter is not None

    def kind(self, ahead: int = 0) -> str:
        """Return the kind of a later atom; empty behind the end."""
        return self.kinds[self.at + ahead]

    def text(self, ahead: int = 0) -> str:
        """Return how another atom is written; it must be there."""
        return self._atoms[self.at + ahead].text

    def one_of(self, texts: Collection[str]) -> str:
        """Return how the next atom is written, if it is one of these; else nothing."""
        text = self._atoms[self.at].text if self.at < len(self._atoms) else ""
        return text if text in texts else ""

    def goes_on(self) -> bool:
        """Say whether an x follows, behind which the size goes on."""
        return self.kinds[self.at] == "by"

    def ask(self, kind: str) -> None:
        """Say that an atom of that kind would belong to what is being read, if it followed."""

    def is_sign(self, place: int) -> bool:
        """Say whether a sign stands at an earlier place."""
        return place >= 0 and self.kinds[place] == "sign"

    def feature(self, name: str) -> str | None:
        """Return what is said of a feature so far."""
        return self.features.get(name)

    def tell(self, term: Term) -> None:
        """Note what a word says of the product."""
        tell(self.features, self.implied, term)

    def next(self) -> Atom:
        """Take the next atom."""
        at = self.at
        self.at = at + 1
        return self._atoms[at]

    def skip(self, *kinds: str) -> None:
        """Go past atoms of these kinds."""
        while self.kinds[self.at] in kinds:
            self.at += 1

    def words(self, known: Phrases) -> tuple[list[str], list[int]]:
        """Return the texts that follow, without what stands between words, and the place behind each."""
        texts: list[str] = []
        places: list[int] = []
        for at in range(self.at, len(self._atoms)):
            atom = self._atoms[at]
            if atom.kind not in SKIPPED:
                texts.append(atom.text)
                places.append(at + 1)
                if len(texts) == known.longest:
                    break
        return texts, places

    def unknown_beside(self, at: int, step: int) -> int | None:
        """Return the place of an unknown word there or behind dashes and signs, or None."""
        while 0 <= at < len(self._atoms) and self.kinds[at] in SKIPPED:
            at += step
        return at if 0 <= at < len(self._atoms) and self.kinds[at] == "unknown" else None

    def leave(self) -> None:
        """Say that the atom that was taken last is not understood."""
        self.left.add(self.at - 1)
