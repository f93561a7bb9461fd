"""Query parameters: declared once, refused when unknown, handed to the view as a mapping."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from flask_smorest import Blueprint
from marshmallow import RAISE, Schema, fields, validate

from ..designations import millimetres
from ..designations.reader import LONGEST
from ..quantities.units import CODES


def query(bp: Blueprint, schema: type[Schema]) -> Any:
    """Return the decorator that reads the query; a misspelt parameter is refused, not ignored."""
    return bp.arguments(schema, location="query", unknown=RAISE, as_kwargs=False)


def text(description: str, example: str, required: bool = False) -> fields.String:
    """Return the field of a text parameter."""
    return fields.String(
        required=required,
        metadata={"description": description, "example": example},
        validate=validate.Length(min=1, max=LONGEST, error=f"has 1 to {LONGEST} characters"),
    )


def designation(example: str) -> fields.String:
    """Return the field of the parameter that most look-ups take."""
    return text("A designation; spaces, case, × and decimal commas are forgiven.", example, required=True)


def unit() -> fields.String:
    """Return the field that chooses a display unit."""
    return fields.String(
        metadata={"description": "Show lengths in this unit; the limit itself stays in its standard's."},
        validate=validate.OneOf(CODES, error=f"is not one of {', '.join(CODES)}"),
    )


def length_of(text: str | None) -> Decimal | None:
    """Return a length in mm; a comma is a decimal point.

    Raises:
        NotUnderstood: the text is no number.
    """
    return None if text is None else millimetres(text)
