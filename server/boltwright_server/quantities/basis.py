"""Where a limit comes from. A number without a basis cannot be built."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Method = Literal["tabulated", "computed", "common practice"]

#: From the strongest evidence to the weakest; `original` is for a plant's own standards, read in the document itself;
#: `conflict` means that the sources disagree.
CHECKED_WORDS = (
    "original",
    "two reproductions",
    "one reproduction and formula",
    "formula",
    "one reproduction",
    "memory",
    "conflict",
)
#: A purchaser's own figure: nothing of it is checked here. No table carries it.
STATED = "stated by the purchaser"
_STRENGTH = {word: rank for rank, word in enumerate((*CHECKED_WORDS, STATED))}
#: What a sentence says of a figure that nobody saw in print, or on which the sources disagree.
_DOUBTS = {"memory": "from memory", "conflict": "the sources disagree"}
DOUBTS = tuple(_DOUBTS.values())


#: Bodies that join number and year by a dash; the others write a colon.
_DASHED = ("ASME", "ASTM")


def cited(standard: str, edition: str) -> str:
    """Return number and edition as the body that publishes the standard joins them.

    ISO 4014:2011, ASME B1.1-2003. An edition in words stands in brackets, ASTM A325 (before 2016); none is `-`.
    """
    if edition == "-":
        return standard
    if not edition[:1].isdigit():
        return f"{standard} ({edition})"
    return f"{standard}{'-' if standard.startswith(_DASHED) else ':'}{edition}"


def weakest(*checked: str) -> str:
    """Return the weakest of the given marks: a sum is no better known than its worst term."""
    return max(checked, key=_STRENGTH.__getitem__)


@dataclass(frozen=True, slots=True)
class Basis:
    """The source of a limit: standard, edition, table or clause, how it was found and how it was checked."""

    standard: str
    edition: str
    clause: str
    method: Method
    checked: str
    note: str | None = None

    @property
    def doubt(self) -> str:
        """What has to be said beside the figure, wherever it goes; empty where it was seen in print or computed."""
        return _DOUBTS.get(self.checked, "")

    def computed(self, clause: str | None = None, *also_checked: str, note: str | None = None) -> Basis:
        """Return the basis of a value computed from this one and from others checked as `also_checked`."""
        checked = weakest(self.checked, *also_checked)
        return Basis(self.standard, self.edition, clause or self.clause, "computed", checked, note or self.note)

    @property
    def cited(self) -> str:
        """Standard and edition, as the trade cites them."""
        return cited(self.standard, self.edition)


def unpublished(source: str, clause: str, method: Method, checked: str, note: str | None = None) -> Basis:
    """Return the basis of what stands in no document with an edition: geometry, a figure of the plant."""
    return Basis(source, "-", clause, method, checked, note)


def practice(clause: str, checked: str = "memory", note: str | None = None) -> Basis:
    """Return the basis of what no standard asks for and the trade does all the same."""
    return unpublished("common practice", clause, "common practice", checked, note)


def stated_by_purchaser(
    document: str | None,
    clause: str,
    method: Method = "common practice",
    *,
    revision: str | None = None,
    note: str | None = None,
) -> Basis:
    """Return the basis of what a purchaser asks for in a document: stated in the request, checked by nobody here."""
    return Basis(document or "purchaser's requirement", revision or "-", clause, method, STATED, note)
