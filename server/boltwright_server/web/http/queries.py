"""Query parameters: declared once, refused when unknown, handed to the view as a mapping."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import wraps
from typing import Any

from flask import request
from flask_smorest import Blueprint
from marshmallow import RAISE, Schema, fields, validate

from ...designations import millimetres
from ...designations.reader import LONGEST
from ...quantities.units import CODES
from .bodies import naming_members, problem


def query(bp: Blueprint, schema: type[Schema]) -> Any:
    """Return the decorator that reads the query; a parameter misspelt or named twice is refused, not ignored."""
    reads = bp.arguments(naming_members(schema()), location="query", unknown=RAISE, as_kwargs=False)

    def decorate(view: Callable[..., Any]) -> Callable[..., Any]:
        reading = reads(view)

        @wraps(reading)
        def once(*args: Any, **kwargs: Any) -> Any:
            for name, values in request.args.lists():
                if len(values) > 1:
                    detail = f"{name[:40]} stands {len(values)} times; name it once"
                    raise problem("repeated_member", detail, (name[:40],))
            return reading(*args, **kwargs)

        return once

    return decorate


class QueryDecimal(fields.Decimal):
    """A finite number as people write it, without the underscores that Python forgives."""

    default_error_messages = {"invalid": "Not a valid number."}  # noqa: RUF012

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Decimal:
        if not re.fullmatch(r"\s*[-+]?[0-9]{0,12}(?:\.[0-9]{0,12})?\s*", str(value), re.ASCII):
            raise self.make_error("invalid")
        return super()._deserialize(value, attr, data, **kwargs)


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
