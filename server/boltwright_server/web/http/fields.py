"""Fields that convert nothing: a number is a JSON number, a flag is true or false."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from marshmallow import fields


class StrictDecimal(fields.Field[Decimal]):
    """A finite JSON number, kept as the decimal that was written."""

    default_error_messages = {"invalid": "Not a valid number: send a finite JSON number, not text or a flag."}  # noqa: RUF012

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Decimal:
        if isinstance(value, bool) or not isinstance(value, int | float | Decimal):
            raise self.make_error("invalid")
        number = Decimal(repr(value)) if isinstance(value, float) else Decimal(value)
        if not number.is_finite() or abs(number.adjusted()) > 30:
            raise self.make_error("invalid")
        return number


class StrictInteger(fields.Field[int]):
    """A JSON number without fraction."""

    default_error_messages = {"invalid": "Not a valid whole number."}  # noqa: RUF012

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int) or abs(value) > 2**53:
            raise self.make_error("invalid")
        return value


class StrictBoolean(fields.Field[bool]):
    """true or false."""

    default_error_messages = {"invalid": "Not a valid flag: send true or false."}  # noqa: RUF012

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> bool:
        if not isinstance(value, bool):
            raise self.make_error("invalid")
        return value


class StrictString(fields.Field[str]):
    """A JSON string."""

    default_error_messages = {"invalid": "Not a valid string."}  # noqa: RUF012

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> str:
        if not isinstance(value, str):
            raise self.make_error("invalid")
        return value
