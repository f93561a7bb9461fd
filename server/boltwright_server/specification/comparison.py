"""What differs between two specifications: every limit with both sides, and whether the other still meets the first.

A difference is in the safe direction where every piece within the other's limits lies within the asked ones too.
Units are compared exactly; 1 in = 25.4 mm, 1 lbf = 4.4482216152605 N (see `quantities.units`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from ..quantities import Bounds, Refusal
from ..quantities.units import factor
from .characteristic import by_property, the_one, traits, with_role
from .compose import Specification

Group = Literal["thread", "dimension", "mechanical", "marking", "coating", "coverage", "caution"]
GROUPS: tuple[Group, ...] = ("thread", "dimension", "mechanical", "marking", "coating", "coverage", "caution")
DIRECTIONS = (
    "larger",
    "smaller",
    "stronger",
    "weaker",
    "harder",
    "softer",
    "higher",
    "lower",
    "wider limits",
    "closer limits",
    "another value",
    "not comparable",
    "only asked",
    "only in the other",
)
#: Endings of properties and loads of a class that are judged as another characteristic, or as none.
_STRENGTHS = ("strength", "stress", "load", "torque")


@dataclass(frozen=True, slots=True)
class Difference:
    """One requirement that differs. A side is bounds, a text, or None where the standard requires nothing of it.

    `meets` says whether what meets the other meets what was asked; None where that cannot be said.
    """

    id: str
    group: Group
    asked: Bounds | str | None
    other: Bounds | str | None
    direction: str
    meets: bool | None


def differences(asked: Specification, other: Specification) -> tuple[Difference, ...]:
    """Return every difference, in the order of `GROUPS`."""
    return (
        *_texts("thread", "thread", asked.item.thread, other.item.thread, meets=False),
        *_texts("tolerance_class", "thread", asked.item.tolerance_class, other.item.tolerance_class, meets=None),
        *_limits("thread", _thread_limits(asked), _thread_limits(other)),
        *_texts("product_grade", "dimension", asked.item.product_grade, other.item.product_grade, meets=None),
        *_limits("dimension", _dimensions(asked), _dimensions(other)),
        *_limits("mechanical", _mechanical(asked), _mechanical(other)),
        *_texts("marking", "marking", _marks(asked), _marks(other), meets=None),
        *_texts("coating", "coating", asked.item.coating, other.item.coating, meets=None),
        *_limits("coating", _coating(asked), _coating(other)),
        *_sentences("not_covered", "coverage", asked.not_covered, other.not_covered),
        *_sentences("caution", "caution", asked.cautions, other.cautions),
    )


def compared(id: str, group: Group, asked: Bounds | None, other: Bounds | None) -> Difference | None:
    """Return the difference of two requirements, or None where their limits are equal."""
    if asked is None or other is None:
        if asked is other:
            return None
        return Difference(id, group, asked, other, *_one_sided(asked))
    try:
        step = factor(other.unit, asked.unit)
    except Refusal:
        return Difference(id, group, asked, other, "not comparable", None)
    low = _moved(asked.min, other.min, step, open_side=-1)
    high = _moved(asked.max, other.max, step, open_side=1)
    if low == high == 0:
        return None
    one_sided = (low == 0 and asked.min is not None) or (high == 0 and asked.max is not None)
    if one_sided or low * high < 0:
        # One limit stays, or both move apart or towards one another.
        direction = "closer limits" if low > high else "wider limits"
    else:
        direction = _direction(id, group, low + high)
    return Difference(id, group, asked, other, direction, low >= 0 >= high)


def _one_sided(asked: object) -> tuple[str, bool | None]:
    """Without a requirement of the other nothing shows that what was asked is met."""
    return ("only in the other", None) if asked is None else ("only asked", False)


def _moved(asked: Decimal | None, other: Decimal | None, step: Fraction, open_side: int) -> int:
    """Return the sign of the change of one limit; an open side lies beyond every number."""
    if asked is None or other is None:
        return open_side * ((other is None) - (asked is None))
    change = Fraction(other) * step - Fraction(asked)
    return (change > 0) - (change < 0)


def _direction(id: str, group: Group, change: int) -> str:
    trait = traits().get(by_property().get(id, id))
    if trait is not None:
        up, down = trait.more_words, trait.less_words
    elif group in ("thread", "dimension"):
        up, down = "larger", "smaller"
    else:
        up, down = ("stronger", "weaker") if id.endswith(_STRENGTHS) else ("higher", "lower")
    return up if change > 0 else down


def _limits(group: Group, asked: Mapping[str, Bounds], other: Mapping[str, Bounds]) -> Iterable[Difference]:
    for id in dict.fromkeys((*asked, *other)):
        found = compared(id, group, asked.get(id), other.get(id))
        if found is not None:
            yield found


def _texts(id: str, group: Group, asked: str | None, other: str | None, meets: bool | None) -> Iterable[Difference]:
    if asked == other:
        return
    if asked is None or other is None:
        yield Difference(id, group, asked, other, _one_sided(asked)[0], None)
    else:
        yield Difference(id, group, asked, other, "another value", meets)


def _sentences(id: str, group: Group, asked: Iterable[str], other: Iterable[str]) -> Iterable[Difference]:
    """Sentences of one side only; those of the other say what a review has to add."""
    ours, theirs = tuple(asked), tuple(other)
    for sentence in ours:
        if sentence not in theirs:
            yield Difference(id, group, sentence, None, "only asked", None)
    for sentence in theirs:
        if sentence not in ours:
            yield Difference(id, group, None, sentence, "only in the other", None)


def _thread_limits(found: Specification) -> dict[str, Bounds]:
    wanted = ((id, found.characteristics.get(id)) for id in with_role("gauged"))
    return {id: one.bounds for id, one in wanted if one is not None and one.bounds is not None}


def _dimensions(found: Specification) -> dict[str, Bounds]:
    """Dimensions with a limit, reference dimensions included; a nominal one without limits is shown by its nominal."""
    if found.dimensions is None:
        return {}
    return {id: _closed(one) for id, one in found.dimensions.dimensions.items()}


def _closed(one: Bounds) -> Bounds:
    if one.min is None and one.max is None and one.nominal is not None:
        return Bounds(one.symbol, one.nominal, one.nominal, one.unit, one.basis, one.nominal)
    return one


def _mechanical(found: Specification) -> dict[str, Bounds]:
    """Properties and loads; of a hardness class the core hardness."""
    if found.mechanical is not None:
        return {**found.mechanical.loads, **found.mechanical.properties}
    core = found.characteristics.get(the_one("core"))
    return {} if core is None or core.bounds is None else {core.id: core.bounds}


def _coating(found: Specification) -> dict[str, Bounds]:
    """The thickness that is judged, and the thread as it is after coating."""
    held = ((id, found.characteristics.get(id)) for id in (*with_role("local"), *with_role("mean")))
    limits = {id: one.bounds for id, one in held if one is not None and one.bounds is not None}
    for state in () if found.coating is None else found.coating.states:
        if state.state != "before coating":
            limits |= {f"{id}_{state.state.replace(' ', '_')}": one for id, one in state.limits.items()}
    return limits


def _marks(found: Specification) -> str | None:
    return "; ".join(dict.fromkeys(one.symbol for one in found.marking)) or None
