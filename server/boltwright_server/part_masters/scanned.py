"""What a text says: standard, size, length, class, coating, the words that were used and those not understood."""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass, field
from typing import NamedTuple

from .tokens import Atom

#: Kinds of atoms that say nothing by themselves.
_SILENT = ("dash", "sign", "other")


class Unsettled(NamedTuple):
    """Something that no reader can decide: the member, what stands in the text, and a plain sentence."""

    member: str
    given: str
    detail: str
    code: str = "requirement-missing"
    #: Two classes: each may be meant.
    instead: tuple[str, str] | None = None


@dataclass(slots=True)
class Reading:
    """What a text says. Sizes and numbers stay text until the standards are asked.

    `standards` holds every product standard that is named; `standard` the one, where there is one.
    """

    standard: str | None = None
    edition: str | None = None
    system: str | None = None
    diameter: str | None = None
    pitch: str | None = None
    length: str | None = None
    property_class: str | None = None
    grade: str | None = None
    hardness: str | None = None
    coating: str | None = None
    features: dict[str, str] = field(default_factory=dict)
    #: A word that is not understood and may make it another product.
    doubt: str | None = None
    #: What the text leaves open though a product is named: two classes, two sizes, a length in a strange unit.
    unsettled: list[Unsettled] = field(default_factory=list)
    #: Dimensions that the text holds, by the ids of stored figures: `SW17`, `M10x20x2` of a washer.
    figures: dict[str, str] | None = None
    standards: list[str] = field(default_factory=list)
    used: list[str] = field(default_factory=list)
    left_over: list[str] = field(default_factory=list)

    @property
    def empty(self) -> bool:
        """Nothing was recognised that could name a product."""
        return self.diameter is None and self.standard is None and "kind" not in self.features

    def copy(self) -> Reading:
        """Return a reading that says the same and may be changed."""
        copied = Reading.__new__(Reading)
        for slot in Reading.__slots__:
            said = getattr(self, slot)
            setattr(copied, slot, said if said is None or said.__class__ is str else said.copy())
        return copied


def nothing() -> Reading:
    """Return a reading that says nothing; containers that are given are not made by factories, for speed."""
    return Reading(features={}, unsettled=[], standards=[], used=[], left_over=[])


class Scanned:
    """A reading under way: numbers whose meaning follows from the rest, as places of their atoms with their text."""

    __slots__ = ("bare_size", "behind_size", "doubts", "implied", "left", "loose", "numbers", "reading", "size_at")

    def __init__(self) -> None:
        """Start with nothing said."""
        self.reading = nothing()
        #: Behind the size, with an x: pitch and length.
        self.numbers: list[tuple[int, str]] = []
        #: The place of a loose number right behind the size: `M10 60`.
        self.behind_size: int | None = None
        #: The place of the metric size.
        self.size_at = 0
        #: Anywhere else: a class of a nut, a length, or left over.
        self.loose: list[tuple[int, str]] = []
        #: A size without its M, `10x60`, with the place where it stands.
        self.bare_size: tuple[int, list[str]] | None = None
        #: Features that a word for a whole kind implies; what is said outright weighs more.
        self.implied: dict[str, str] = {}
        self.left: set[int] = set()
        #: Places of words beside the name that may make it another product, if nothing else explains them.
        self.doubts: list[int] = []


def accounted(atoms: Sequence[Atom], left: Set[int]) -> tuple[list[str], list[str]]:
    """Return the words that were used and those left over, with the places of the latter given."""
    if not left:
        return [atom.text for atom in atoms if atom.kind not in _SILENT], []
    used = [atom.text for at, atom in enumerate(atoms) if atom.kind not in _SILENT and at not in left]
    return used, [atom.text for at, atom in enumerate(atoms) if at in left]
