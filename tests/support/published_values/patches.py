"""Ways to take one rule away for a test: another attribute, another function wherever it was imported, another cell."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from engine import replace_everywhere

from boltwright_server.standards import standard

Patch = Callable[[pytest.MonkeyPatch], None]


def attribute(owner: object, name: str, new: Any) -> Patch:
    """Give a module or class another attribute."""
    return lambda monkeypatch: monkeypatch.setattr(owner, name, new)


def everywhere(name: str, new: Any) -> Patch:
    """Put something else wherever a name was imported."""
    return lambda monkeypatch: replace_everywhere(monkeypatch, name, new)


def cell(folder: str, table: str, key: tuple[Any, ...], column: str, new: Any) -> Patch:
    """Give one cell of a table another value."""

    def patch(monkeypatch: pytest.MonkeyPatch) -> None:
        cells = standard(folder).table(table).rows[key].cells
        assert cells[column] != new
        monkeypatch.setitem(cells, column, new)  # type: ignore[arg-type]

    return patch
