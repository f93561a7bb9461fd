"""Which columns of a file, or members of JSON rows, are read, and which are not, with the member that they may mean."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from ...quantities import near_names
from ...quantities.keeper import remembered
from ..figures.figure_limits import figure_ids
from .row import MASS, WORDS, header_of

#: Names that are listed; of more only the number is known.
MOST_LISTED = 100
_LONGEST_NAME, _MOST_COUNTED = 80, 10_000
#: Shapes of rows that are remembered, so that rows of one shape cost one look.
_MOST_SHAPES = 1000
#: How plants title their columns (common practice), without signs; a hint only, never a reading.
_TITLES = {
    "part_number": "artikel artikelnr artikelnummer teil teilenr teilenummer material materialnr materialnummer sachnr "
    "sachnummer item itemno itemnumber partno partnr code codice articolo articulo codigo reference ref article",
    "description": "text kurztext langtext bezeichnung benennung artikelbezeichnung materialkurztext name title "
    "libelle denominacion descripcion descrizione denominazione descricao",
    "designation": "normbezeichnung",
    "standard": "norm norme norma dinnorm isonorm spec",
    "thread": "gewinde filetage filettatura rosca size groesse",
    "length": "laenge longueur lunghezza longitud largo len",
    "property_class": "festigkeit festigkeitsklasse klasse class grade classe clase strengthclass gradeclass",
    "coating": "oberflaeche beschichtung finish plating surface revetement rivestimento recubrimiento",
    "mates_with": "mutter passendemutter nut mate",
    "width_across_flats": "sw schluesselweite af acrossflats surplats cle chiave llave entrecaras",
    "mass_per_1000": "gewicht weight mass masse peso",
}


class Unread(NamedTuple):
    """A column that is not read, and the member nearest to its title, None where none is near."""

    title: str
    nearest: str | None


@remembered()
def validated_members() -> tuple[str, ...]:
    """Return what the validation reads of a row."""
    return (*WORDS, MASS, *sorted(figure_ids()))


#: What the impact of a change reads of a row.
ASSESSED_MEMBERS = tuple(word for word in WORDS if word != "mates_with")


def nearest_member(title: str) -> str | None:
    """Return the member that a title most likely means: a slip of the pen, or what plants call it."""
    id = header_of(title).id
    plain = _plain(id)
    meant = next((member for member, titles in _TITLES.items() if plain in titles.split()), None)
    if meant is not None or len(plain) < 4:
        return meant
    near = near_names(id, validated_members(), 1, slips=max(1.0, len(plain) / 5))
    return near[0] if near else None


def _plain(title: str) -> str:
    text = title.lower()
    for letter, written in _LETTERS.items():
        text = text.replace(letter, written)
    return re.sub(r"[\W_]+", "", text)


_LETTERS = {"\u00e4": "ae", "\u00f6": "oe", "\u00fc": "ue", "\u00df": "ss", "\u00e9": "e", "\u00e8": "e", "\u00ea": "e",
            "\u00ed": "i", "\u00f3": "o", "\u00e1": "a", "\u00e7": "c", "\u00e3": "a"}  # fmt: skip


class Columns:
    """Counts up what the rows of one body hold, by the names of their columns or members."""

    def __init__(self, members: Iterable[str]) -> None:
        """Start with no row; `members` are the ids that are read."""
        self._members = frozenset(members)
        self._shapes: set[tuple[str, ...]] = set()
        self._read: dict[str, str | None] = {}
        self._unread: dict[str, str | None] = {}
        self._further: set[int] = set()

    def knows(self, title: str) -> bool:
        """Say whether a title is read."""
        return header_of(title).id in self._members

    def see(self, names: tuple[str, ...], titles: Sequence[str] | None = None) -> None:
        """Take note of the names of a row; `titles` are those of the file, where they were mapped."""
        if names in self._shapes:
            return
        if len(self._shapes) >= _MOST_SHAPES:
            self._shapes.clear()
        self._shapes.add(names)
        for name, title in zip(names, titles or names, strict=True):
            self._note(name, title)

    def _note(self, name: str, title: str) -> None:
        title, known = title.strip()[:_LONGEST_NAME], self.knows(name)
        kept = self._read if known else self._unread
        if not title or title in kept:
            return
        if len(kept) < MOST_LISTED:
            kept[title] = None if known else self._nearest(title)
        elif len(self._further) < _MOST_COUNTED:
            self._further.add(hash(title))

    def _nearest(self, title: str) -> str | None:
        near = nearest_member(title)
        return near if near in self._members else None

    @property
    def read(self) -> list[str]:
        """The titles that were read, as they came."""
        return list(self._read)

    @property
    def unread(self) -> list[Unread]:
        """The titles that were not."""
        return [Unread(title, nearest) for title, nearest in self._unread.items()]

    @property
    def not_listed(self) -> int:
        """How many further titles there are, read or not; counting ends at some thousand."""
        return len(self._further)

    @property
    def none_known(self) -> bool:
        """Whether there were names, and none of them is known."""
        return bool(self._unread) and not self._read
