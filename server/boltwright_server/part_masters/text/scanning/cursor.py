"""A place among the atoms of a text, and what they said so far."""

from __future__ import annotations

from collections.abc import Sequence

from ..scanned import Reading, Scanned
from ..tokens import Atom

#: Between the words of a phrase.
SKIPPED = ("dash", "sign", "other")
#: Nobody looks further ahead.
_BEHIND_THE_END = [""] * 4


class Cursor:
    """Stands behind the atom that is being read."""

    __slots__ = ("at", "atoms", "kinds", "scanned")

    def __init__(self, atoms: Sequence[Atom]) -> None:
        self.atoms = atoms
        self.kinds = [atom.kind for atom in atoms] + _BEHIND_THE_END
        self.at = 0
        self.scanned = Scanned(Reading())

    def kind(self, ahead: int = 0) -> str:
        """Return the kind of a later atom; empty behind the end."""
        return self.kinds[self.at + ahead]

    def text(self, ahead: int = 0) -> str:
        """Return how a later atom is written; it must be there."""
        return self.atoms[self.at + ahead].text

    def next(self) -> Atom:
        """Take the next atom."""
        at = self.at
        self.at = at + 1
        return self.atoms[at]

    def skip(self, *kinds: str) -> None:
        """Go past atoms of these kinds."""
        while self.kinds[self.at] in kinds:
            self.at += 1

    def words(self, most: int) -> tuple[list[str], list[int]]:
        """Return the texts of the atoms that follow, without what stands between words, and the place behind each."""
        texts: list[str] = []
        places: list[int] = []
        for at in range(self.at, len(self.atoms)):
            atom = self.atoms[at]
            if atom.kind not in SKIPPED:
                texts.append(atom.text)
                places.append(at + 1)
                if len(texts) == most:
                    break
        return texts, places

    def leave(self) -> None:
        """Say that the atom that was taken last is not understood."""
        self.scanned.left.add(self.at - 1)
