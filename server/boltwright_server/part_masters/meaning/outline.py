"""What is known of a part whatever its product standard: thread, class, coating. Most checks need no more than that."""

from __future__ import annotations

from dataclasses import dataclass, replace

from ...coating import Coating
from ...products import Product
from ...threads import Member, ThreadSize
from ..text.lexicon import UNSAID

_MEMBERS: dict[str, Member] = {"bolt": "external", "nut": "internal"}


@dataclass(frozen=True, slots=True)
class Outline:
    """One thing that a row may mean. `product` is what it is, or of a former standard the ISO product that followed it.

    `not_held` is the standard that the row names, where it is not held: then nothing of its tables is known.
    """

    size: ThreadSize
    kind: str
    property_class: str | None
    mark: str
    coating: Coating | None
    product: Product | None = None
    not_held: str | None = None

    @property
    def member(self) -> Member | None:
        """The thread that it carries; None for a washer, and where nothing says what it is."""
        return _MEMBERS.get(self.kind)

    @property
    def name(self) -> str:
        """How a sentence names it."""
        if self.not_held is not None:
            return self.not_held
        return "the product" if self.product is None else self.product.id

    @property
    def held(self) -> Product | None:
        """The product, where its own standard is held."""
        return None if self.not_held is not None else self.product

    @property
    def strength_class(self) -> str | None:
        """The class whose loads hold; None where none is named, or a class of hardness only."""
        product, name = self.product, self.property_class
        if product is None or name is None:
            return name
        return None if product.family.hardness_only else product.strength_class(name)

    @property
    def style(self) -> int | None:
        """The style of a nut in ISO 898-2; former nuts are of none."""
        return None if self.held is None else self.held.nut_style(self.property_class)

    def without_class(self) -> Outline:
        """Return what is left where the class is not certain."""
        return replace(self, property_class=None, mark="")


def kind_of(product: Product) -> str:
    """Return bolt, nut or washer."""
    return {"external": "bolt", "internal": "nut", None: "washer"}[product.member]


def kind_by_class(kind: str, property_class: str | None, has_length: bool) -> str:
    """Return what a part of an unknown standard is: as the words say, else a length or a class 8.8 is of a bolt."""
    of_bolt = has_length or "." in (property_class or "")
    return "bolt" if kind == UNSAID and of_bolt else kind
