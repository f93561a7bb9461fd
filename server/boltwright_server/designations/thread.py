"""Thread designations: text to size, class, hand and engagement, and back to the canonical text.

ISO 965-1:2013, clause 5, and ASME B1.1-2003, clause on designation.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from decimal import Decimal

from lark import Token, Tree

from ..coating import check_mating
from ..products.not_held import refuse_not_held
from ..quantities import NotUnderstood, at_position
from ..quantities.keeper import remembered
from ..quantities.rounding import shortest
from ..threads import ThreadClass, ThreadSize, ToleranceClass, UnifiedClass, find_size
from ..threads.unified import find_size as find_unified_size
from .numbers import number
from .reader import at, read

_THREAD = re.compile(r"\s*(?:M\s*[0-9.,]|M\s*$|[#.,0-9])", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class ThreadDesignation:
    """What a thread designation says. A fit has an internal and an external class, a thread one of them.

    `size` and classes belong to one thread system. `engagement` is the group S, N or L of a metric thread, or the
    stated length of a Unified one ("LE 1.5", inch).
    """

    size: ThreadSize
    internal: ThreadClass | None
    external: ThreadClass | None
    engagement: str | None
    left_hand: bool

    @property
    def classes(self) -> tuple[ThreadClass, ...]:
        """The classes given, the internal one first as a fit is written."""
        return tuple(one for one in (self.internal, self.external) if one is not None)

    @property
    def canonical(self) -> str:
        """The canonical ASCII text."""
        return self.in_class("/".join(one.designation for one in self.classes))

    def in_class(self, symbols: str) -> str:
        """Return the canonical text of this thread in another class or fit: `6g`, `2B/2A`."""
        parts = [self.size.designation]
        if symbols:
            parts.append(symbols)
        if self.engagement:
            parts.append(self.engagement)
        if self.left_hand:
            parts.append("LH")
        return "-".join(parts)

    def only(self, tolerance: ThreadClass) -> ThreadDesignation:
        """Return the designation of one member of a fit."""
        internal = tolerance.member == "internal"
        return ThreadDesignation(
            self.size,
            tolerance if internal else None,
            None if internal else tolerance,
            self.engagement,
            self.left_hand,
        )


def names_thread(text: str) -> bool:
    """Say whether a designation starts as a thread does (M10, 1/2, #8, .250) and not as a product does."""
    return _THREAD.match(text) is not None


@remembered(4096)
def parse_thread(text: str) -> ThreadDesignation:
    """Read a thread designation such as `M10-6g`, `M10x1.25-6H/6g`, `M8-LH`, `1/2-13 UNC-2A` or `#8-32 UNC-2B-LH`.

    Raises:
        NotUnderstood: not of that form, or two classes of one member.
        UnknownName: no such diameter or pitch is listed, or it is listed in another series.
        NotStandardised: a pitch that no formula of the standard covers.
        Contradiction: a fit that must never be assembled.
        NotCovered: a thread that is known by name and not held.
    """
    try:
        tree = read(text, "thread")
    except NotUnderstood:
        with at_position(0):
            refuse_not_held(text)
        raise
    return _metric(text, tree) if tree.data == "metric" else _unified(text, tree)


def _metric(text: str, tree: Tree[Token]) -> ThreadDesignation:
    d, pitch, first, second, engagement, hand = _children(tree)
    if d is None:
        raise NotUnderstood("a designation needs a diameter", member="designation")
    with at(d):
        size = find_size(number(d), None if pitch is None else number(pitch))
    internal, external = _members(text, ToleranceClass.parse, (first, second))
    if isinstance(internal, ToleranceClass) and isinstance(external, ToleranceClass):
        with at(second):
            check_mating(external, internal)
    return ThreadDesignation(
        size, internal, external, None if engagement is None else str(engagement), hand is not None
    )


def _unified(text: str, tree: Tree[Token]) -> ThreadDesignation:
    inch, tpi, series, first, second, *rest = _children(tree)
    with at(tpi):
        threads_per_inch = _threads_per_inch(str(tpi))
    with at(inch):
        size = find_unified_size(_spaced(str(inch)), threads_per_inch, None if series is None else str(series).upper())
    internal, external = _members(text, UnifiedClass.parse, (first, second))
    lengths = [_inches(one) for one in rest if one is not None and one.type == "LENGTH"]
    hands = [one for one in rest if one is not None and one.type == "HAND"]
    if len(lengths) > 1 or len(hands) > 1:
        with at(rest[-1]):
            raise NotUnderstood(f"{text!r}: LH and LE stand once each", member="designation")
    if lengths:
        size = replace(size, LE=lengths[0])
    return ThreadDesignation(size, internal, external, f"LE {lengths[0]}" if lengths else None, bool(hands))


def _members(
    text: str, parse: Callable[[str], ThreadClass], tokens: Iterable[Token | None]
) -> tuple[ThreadClass | None, ThreadClass | None]:
    """Return the internal and the external class of at most two."""
    written = [one for one in tokens if one is not None]
    given = [_class(parse, one) for one in written]
    internal = next((one for one in given if one.member == "internal"), None)
    external = next((one for one in given if one.member == "external"), None)
    if len(given) == 2 and (internal is None or external is None):
        with at(written[1]):
            raise NotUnderstood(
                f"{text!r}: a fit joins an internal and an external class, as 6H/6g or 2B/2A", member="designation"
            )
    return internal, external


def _class(parse: Callable[[str], ThreadClass], token: Token) -> ThreadClass:
    with at(token):
        return parse(str(token))


def _spaced(inch: str) -> str:
    """Return `1-1/2` and `1  1 / 2` as `1 1/2`, and `# 8` as `#8`."""
    parts = inch.replace("-", " ").replace("/", " / ").split()
    return " ".join(parts).replace(" / ", "/").replace("# ", "#")


def _threads_per_inch(text: str) -> Decimal:
    whole, _, rest = _spaced(text).partition(" ")
    value = number(whole) + (Decimal("0.5") if rest else 0)
    if value == 0:
        raise NotUnderstood("a thread has more than 0 threads per inch", member="designation")
    return shortest(value)


def _inches(token: Token) -> Decimal:
    value = shortest(number(str(token).lower().removesuffix("in").strip()))
    if value == 0:
        with at(token):
            raise NotUnderstood("a length of engagement is more than 0", member="designation")
    return value


def _children(tree: Tree[Token]) -> list[Token | None]:
    return [child if isinstance(child, Token) else None for child in tree.children]
