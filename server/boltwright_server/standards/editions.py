"""Which edition of a standard is in force, as far as known, and how an edition that is named stands to those held.

A limit is that of the edition that its basis names; nothing here turns a figure of one edition into one of another.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from ..quantities import Basis, cited
from .registry import all_standards, rules
from .table import Standard

#: `held`: one of the editions held. `superseded`: older than the newest held, and not held itself. `later`: newer than
#: every edition held. `not comparable`: not held, and no year tells which is the older. `not held`: no edition is held.
Word = Literal["held", "superseded", "later", "not comparable", "not held"]
_YEAR = re.compile(r"(?:19|20)[0-9]{2}")
_WITHDRAWN = "-"


@dataclass(frozen=True, slots=True)
class InForce:
    """The edition in force as far as known; `edition` is None where the standard is withdrawn.

    `checked` counts what names the edition: two catalogue entries or title pages, one, or none (memory).
    """

    standard: str
    edition: str | None
    checked: str
    remark: str | None

    @property
    def basis(self) -> Basis:
        """Where it is said which edition is in force."""
        return Basis(self.standard, self.edition or "withdrawn", "edition", "tabulated", self.checked)

    @property
    def told(self) -> str:
        """A sentence about the edition, without its full stop."""
        what = f"{self.standard} is withdrawn"
        if self.edition is not None:
            what = f"{cited(self.standard, self.edition)} is the edition in force as far as known"
        return f"{what} ({_SOURCES[self.checked]})"


_SOURCES = {
    "two reproductions": "two public catalogues or title pages",
    "one reproduction": "one public catalogue or title page",
    "memory": "from memory, not seen in a catalogue",
}


@dataclass(frozen=True, slots=True)
class Standing:
    """How an edition that was named stands to the editions held: `held` is empty where none is."""

    standard: str
    edition: str
    word: Word
    held: tuple[str, ...]
    in_force: InForce | None

    @property
    def told(self) -> str:
        """What to say of the edition that was named, in a sentence or two."""
        named = cited(self.standard, self.edition)
        if not self.held:
            return f"{named} is not held: nothing is checked against it"
        holds = " and ".join(cited(self.standard, one) for one in self.held)
        if self.word == "held":
            start = f"{named} is held"
        else:
            start = (
                f"{named} is not held ({_AGE[self.word]}); held and used is {holds}, and no figure is one of {named}"
            )
        known = later_than(self.standard, self.held[-1])
        return start if known is None else f"{start}. {known.told}"


_AGE = {
    "superseded": "it is older than what is held",
    "later": "it is later than what is held",
    "not comparable": "which of the two is older is not known",
}


def in_force(standard_id: str) -> InForce | None:
    """Return the edition of a standard that is in force as far as known, or None where nothing is known."""
    row = rules("Editions in force").table("editions").find(standard_id)
    if row is None:
        return None
    edition, remark = row.word("in_force"), row.word("remark")
    return InForce(
        standard_id,
        None if edition == _WITHDRAWN else edition,
        row.checked("in_force"),
        None if remark == "-" else remark,
    )


def later_than(standard_id: str, edition: str) -> InForce | None:
    """Return what is in force where it is later than `edition`, or a standard withdrawn; else None.

    An edition held without a year is not known to be the one in force: nothing is said of it here.
    """
    known = in_force(standard_id)
    if known is None or known.edition is None:
        return known
    ours = _year(edition)
    return known if ours is not None and (_year(known.edition) or 0) > ours else None


def later_than_held(held: Standard) -> InForce | None:
    """Return what is in force where it is later than the edition held, as `later_than`."""
    return later_than(held.id, held.edition)


@dataclass(frozen=True, slots=True)
class LaterEdition:
    """A standard whose figures are of the edition `used`, and the later edition that is in force as far as known."""

    standard: str
    used: str
    in_force: InForce

    @property
    def told(self) -> str:
        """A sentence for whoever reads the figures."""
        return f"The figures are those of {cited(self.standard, self.used)}. {self.in_force.told}."


def later_editions(used: Iterable[tuple[str, str]]) -> tuple[LaterEdition, ...]:
    """Return those of several standards, each with the edition that is used, of which a later one is in force."""
    known = ((name, edition, later_than(name, edition)) for name, edition in dict.fromkeys(used))
    return tuple(LaterEdition(name, edition, later) for name, edition, later in known if later is not None)


def standing(standard_id: str, edition: str) -> Standing:
    """Return how the edition `edition` of `standard_id` (`ISO 4014`, `2022`) stands to the editions held."""
    held = tuple(one.edition for one in all_standards() if one.id == standard_id)
    return Standing(standard_id, edition, _word(edition, held), held, in_force(standard_id))


def _word(edition: str, held: tuple[str, ...]) -> Word:
    if not held:
        return "not held"
    if edition in held:
        return "held"
    years = [year for one in held if (year := _year(one)) is not None]
    named = _year(edition)
    if named is None or not years or not all(one.isdecimal() for one in held):
        return "not comparable"
    return "later" if named > max(years) else "superseded"


def _year(edition: str) -> int | None:
    found = _YEAR.search(edition)
    return None if found is None else int(found[0])
