"""Plain text, aligned: numbers at their decimal point, the rest to the left."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from decimal import Decimal

from .values import Bounds

WIDTH = 100
Cell = str | Decimal | int | None


def aligned(rows: Sequence[Sequence[Cell]], indent: str = "  ") -> str:
    """Return rows as lines; the cells of a column are aligned, an empty column takes no room."""
    columns = [_column(cells) for cells in zip(*rows, strict=True)]
    shown = [column for column in columns if any(cell.strip() for cell in column)]
    return "\n".join((indent + "  ".join(cells)).rstrip() for cells in zip(*shown, strict=True))


def _column(cells: Sequence[Cell]) -> list[str]:
    if all(isinstance(cell, str | None) for cell in cells):
        texts = [_text(cell) for cell in cells]
        return [text.ljust(max(map(len, texts))) for text in texts]
    decimals = max(len(_fraction(cell)) for cell in cells)
    texts = [_text(cell) + ("" if isinstance(cell, str) else " " * (decimals - len(_fraction(cell)))) for cell in cells]
    return [text.rjust(max(map(len, texts))) for text in texts]


def _text(cell: Cell) -> str:
    return f"{cell:f}" if isinstance(cell, Decimal) else "" if cell is None else str(cell)


def _fraction(cell: Cell) -> str:
    """The decimal point and what follows it."""
    text = _text(cell) if isinstance(cell, Decimal) else ""
    return text[text.index(".") :] if "." in text else ""


def figure(value: float | None) -> str:
    """Return six digits of a value, nothing for none."""
    return "" if value is None else f"{value:.6g}"


def words(id: str) -> str:
    """Return an id as people write it."""
    return id.replace("_", " ")


def limits_of(bounds: Bounds) -> tuple[Cell, Cell, Cell]:
    """Return the cells min, max and unit; without a limit there is no unit either."""
    low, high = bounds.exact_min, bounds.exact_max
    return low, high, bounds.unit if bounds.unit != "1" and (low, high) != (None, None) else None


def listed(sentences: Iterable[str]) -> str:
    """Return sentences as a list, folded to the width."""
    return "\n".join(
        textwrap.fill(sentence, WIDTH, initial_indent="  - ", subsequent_indent="    ", break_on_hyphens=False)
        for sentence in sentences
    )


def sections(*parts: tuple[str, str] | str) -> str:
    """Join parts by blank lines, each below its heading if it has one; parts without text are left out."""
    shown = [part if isinstance(part, str) else f"{part[0]}\n{part[1]}" if part[1] else "" for part in parts]
    return "\n\n".join(part for part in shown if part)
