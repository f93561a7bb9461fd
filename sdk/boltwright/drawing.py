"""Drawings as the service makes them: SVG, the same file for a page, a document and a notebook."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import TypedDict

MEDIA_TYPE = "image/svg+xml"
Number = float | Decimal


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing; a notebook shows it by itself."""

    svg: str

    def save(self, path: str | Path) -> Path:
        """Write the drawing to a file.

        Raises:
            OSError: the file cannot be written.
        """
        target = Path(path)
        target.write_text(self.svg, encoding="utf-8")
        return target

    def _repr_svg_(self) -> str:
        return self.svg

    def __repr__(self) -> str:
        """Say how long it is; the drawing itself would fill the screen."""
        return f"Drawing({len(self.svg)} characters of SVG)"


class LimitsToDraw(TypedDict, total=False):
    """What readings are drawn against.

    `title` stands above; `unit` is that of the values. Limits are `min` and `max`, in `limits_unit` where that is
    another, or those of a `characteristic` of a `designation`. `acceptance_min` and `acceptance_max` judge nothing.
    """

    title: str | None
    unit: str | None
    min: Number | None
    max: Number | None
    limits_unit: str | None
    designation: str | None
    characteristic: str | None
    acceptance_min: Number | None
    acceptance_max: Number | None
