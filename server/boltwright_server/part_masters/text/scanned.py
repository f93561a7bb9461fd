"""What a text says: standard, size, length, class, coating, the words that were used and those not understood."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple


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
    system: str | None = None
    diameter: str | None = None
    pitch: str | None = None
    length: str | None = None
    property_class: str | None = None
    grade: str | None = None
    hardness: str | None = None
    coating: str | None = None
    features: dict[str, str] = field(default_factory=dict)
    #: Tolerance classes of the thread, and the series of an inch thread: `6g`, `UNC`.
    tolerances: list[str] = field(default_factory=list)
    series: str | None = None
    #: A word that is not understood and may make it another product.
    doubt: str | None = None
    #: What the text leaves open though a product is named: two classes, two sizes, a length in a strange unit.
    unsettled: list[Unsettled] = field(default_factory=list)
    #: Dimensions that the text holds, by the ids of stored figures: `SW17`, `M10x20x2` of a washer.
    figures: dict[str, str] | None = None
    standards: list[str] = field(default_factory=list)
    #: The years of standards by their names; those of standards that name no product too.
    editions: dict[str, str] = field(default_factory=dict)
    used: list[str] = field(default_factory=list)
    left_over: list[str] = field(default_factory=list)
    #: Of what is left over, what may be a requirement of its own; numbers of parts and items are none.
    unexplained: list[str] = field(default_factory=list)

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


@dataclass(slots=True)
class Scanned:
    """A reading under way: numbers whose meaning follows from the rest, as places of their atoms with their text."""

    reading: Reading
    #: Behind the size, with an x: pitch and length.
    numbers: list[tuple[int, str]] = field(default_factory=list)
    #: The place of a loose number right behind the size: `M10 60`.
    behind_size: int | None = None
    #: The place of the metric size.
    size_at: int = 0
    #: Anywhere else: a class of a nut, a length, or left over.
    loose: list[tuple[int, str]] = field(default_factory=list)
    #: A size without its M, `10x60`, with the place where it stands.
    bare_size: tuple[int, list[str]] | None = None
    #: Features that a word for a whole kind implies; what is said outright weighs more.
    implied: dict[str, str] = field(default_factory=dict)
    #: The place of a steel without its strength: `INOX A2 CL 70`.
    steel_at: int | None = None
    #: A thickness of a coating in um, with the places of its words.
    thickness: tuple[str, tuple[int, ...]] | None = None
    #: Places of words of things that are no fasteners.
    no_fastener: set[int] = field(default_factory=set)
    #: Places of words that only a named standard explains: `SKT`.
    by_standard: set[int] = field(default_factory=set)
    left: set[int] = field(default_factory=set)
    #: Places of words beside the name that may make it another product, if nothing else explains them.
    doubts: list[int] = field(default_factory=list)
    #: The standard that was named last: a year behind it is of no other.
    named: str | None = None
