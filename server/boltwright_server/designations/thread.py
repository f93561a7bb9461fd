"""Thread designations: text to size, class, hand and engagement, and back to the canonical text.

ISO 965-1:2013, clause 5.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache

from lark import Token, Tree

from ..quantities import NotUnderstood
from ..threads import MetricSize, ToleranceClass, find_size
from .reader import read


@dataclass(frozen=True, slots=True)
class ThreadDesignation:
    """What a thread designation says. A fit has an internal and an external class, a thread one of them."""

    size: MetricSize
    internal: ToleranceClass | None
    external: ToleranceClass | None
    engagement: str | None
    left_hand: bool

    @property
    def classes(self) -> tuple[ToleranceClass, ...]:
        """The classes given, the internal one first as a fit is written."""
        return tuple(one for one in (self.internal, self.external) if one is not None)

    @property
    def canonical(self) -> str:
        """The canonical ASCII text."""
        parts = [self.size.designation]
        if self.classes:
            parts.append("/".join(one.designation for one in self.classes))
        if self.engagement:
            parts.append(self.engagement)
        if self.left_hand:
            parts.append("LH")
        return "-".join(parts)

    def only(self, tolerance: ToleranceClass) -> ThreadDesignation:
        """Return the designation of one member of a fit."""
        internal = tolerance.member == "internal"
        return ThreadDesignation(
            self.size,
            tolerance if internal else None,
            None if internal else tolerance,
            self.engagement,
            self.left_hand,
        )


def number(token: Token) -> Decimal:
    """Return the decimal of a NUMBER token; a comma is a decimal point."""
    return Decimal(str(token).replace(",", "."))


@lru_cache(maxsize=4096)
def parse_thread(text: str) -> ThreadDesignation:
    """Read a thread designation such as `M10-6g`, `M10x1.25-6H/6g` or `M8-LH`.

    Raises:
        NotUnderstood: not of that form, or two classes of one member.
        UnknownName: ISO 261 has no such diameter or pitch.
    """
    d, pitch, first, second, engagement, hand = _children(read(text, "thread"))
    if d is None:
        raise NotUnderstood("a designation needs a diameter", member="designation")
    size = find_size(number(d), None if pitch is None else number(pitch))
    given = [ToleranceClass.parse(str(one)) for one in (first, second) if one is not None]
    internal = next((one for one in given if one.member == "internal"), None)
    external = next((one for one in given if one.member == "external"), None)
    if len(given) == 2 and (internal is None or external is None):
        raise NotUnderstood(f"{text!r}: a fit joins an internal and an external class, as 6H/6g", member="designation")
    return ThreadDesignation(
        size, internal, external, None if engagement is None else str(engagement), hand is not None
    )


def _children(tree: Tree[Token]) -> list[Token | None]:
    return [child if isinstance(child, Token) else None for child in tree.children]
