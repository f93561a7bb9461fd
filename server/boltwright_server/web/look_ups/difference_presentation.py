"""Differences of two specifications as members of an answer: equivalents and impact show them alike."""

from __future__ import annotations

from typing import Any

from marshmallow import Schema, fields

from ...quantities import Bounds, Refusal
from ...specification.comparison import DIRECTIONS, GROUPS, Difference
from ..http.answers import BoundsAnswer
from ..http.presentation import bounds
from ..http.schemas import BoundsSchema


def difference_schema(first: str, second: str) -> type[Schema]:
    """Return the schema of a difference whose sides have these names."""
    sides = {
        side: fields.Nested(BoundsSchema, allow_none=True, metadata={"description": "null: nothing, or a text."})
        for side in (first, second)
    }
    texts = {f"{side}_text": fields.String(allow_none=True) for side in (first, second)}
    members: dict[str, Any] = {
        "id": fields.String(metadata={"example": "width_across_flats"}),
        "group": fields.String(metadata={"enum": list(GROUPS)}),
        **sides,
        **texts,
        "converted": fields.Nested(
            BoundsSchema,
            allow_none=True,
            metadata={"description": f"The limits of `{second}` in the unit of `{first}`, where the units differ."},
        ),
        "direction": fields.String(metadata={"enum": list(DIRECTIONS)}),
        "meets": fields.Boolean(
            allow_none=True,
            metadata={
                "description": f"The safe direction: what meets `{second}` meets `{first}` too. null: cannot be said."
            },
        ),
    }
    found: type[Schema] = Schema.from_dict(members, name=f"{first.capitalize()}{second.capitalize()}Difference")
    return found


def difference_shown(one: Difference, first: str, second: str) -> dict[str, Any]:
    """Return the members of a difference."""
    return {
        "id": one.id,
        "group": one.group,
        first: _bounds(one.asked),
        second: _bounds(one.other),
        f"{first}_text": one.asked if isinstance(one.asked, str) else None,
        f"{second}_text": one.other if isinstance(one.other, str) else None,
        "converted": _converted(one),
        "direction": one.direction,
        "meets": one.meets,
    }


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
