"""Differences of two specifications as members of an answer: equivalents and impact show them alike."""

from __future__ import annotations

from typing import Annotated, TypeVar

from msgspec import Meta, Struct

from ...quantities import Bounds, Refusal
from ...specification.comparison import DIRECTIONS, GROUPS, Difference
from ..http.answers import BoundsAnswer, described
from ..http.presentation import bounds

T = TypeVar("T", bound="DifferenceAnswer")


class DifferenceAnswer(Struct, kw_only=True):
    """A requirement in which two specifications differ.

    A resource has its own names of both sides: its class says `rename=sides(...)` and declares those members anew.
    """

    id: Annotated[str, Meta(examples=["width_across_flats"])]
    group: Annotated[str, Meta(extra_json_schema={"enum": list(GROUPS)})]
    first: Annotated[BoundsAnswer | None, described("null: nothing, or a text.")]
    second: Annotated[BoundsAnswer | None, described("null: nothing, or a text.")]
    first_text: str | None
    second_text: str | None
    converted: Annotated[
        BoundsAnswer | None,
        described("The limits of the second side in the unit of the first, where the units differ."),
    ]
    direction: Annotated[str, Meta(extra_json_schema={"enum": list(DIRECTIONS)})]
    meets: Annotated[
        bool | None,
        described("The safe direction: what meets the second side meets the first too. null: cannot be said."),
    ]


def sides(first: str, second: str) -> dict[str, str]:
    """Return how the members of both sides are called on the wire."""
    return {"first": first, "second": second, "first_text": f"{first}_text", "second_text": f"{second}_text"}


def difference_shown(kind: type[T], one: Difference) -> T:
    """Return a difference as its resource shows it."""
    return kind(
        id=one.id,
        group=one.group,
        first=_bounds(one.asked),
        second=_bounds(one.other),
        first_text=one.asked if isinstance(one.asked, str) else None,
        second_text=one.other if isinstance(one.other, str) else None,
        converted=_converted(one),
        direction=one.direction,
        meets=one.meets,
    )


def _bounds(side: Bounds | str | None) -> BoundsAnswer | None:
    return bounds(side) if isinstance(side, Bounds) else None


def _converted(one: Difference) -> BoundsAnswer | None:
    asked, other = one.asked, one.other
    if not isinstance(asked, Bounds) or not isinstance(other, Bounds) or asked.unit == other.unit:
        return None
    try:
        return bounds(other, asked.unit)
    except Refusal:
        return None
