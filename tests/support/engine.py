"""Handles on the engines for tests that change them for a moment."""

from __future__ import annotations

import sys
from types import ModuleType
from typing import Any

import pytest

from boltwright_server.quantities.keeper import KEEPER
from boltwright_server.standards import fingerprint, loader, registry, table

#: Reading the tables again would take longer than every test that asks for it; no test changes the files.
_KEPT = (fingerprint.__name__, loader.__name__, registry.__name__, table.__name__)


def modules() -> list[ModuleType]:
    """Return every module of the server that has been imported."""
    return [module for name, module in sorted(sys.modules.items()) if name.split(".")[0] == "boltwright_server"]


def clear_caches() -> None:
    """Forget every answer; the tables stay in memory."""
    for memory in KEEPER.memories.values():
        if not memory.name.startswith(_KEPT):
            memory.forget()


def replace_everywhere(monkeypatch: pytest.MonkeyPatch, name: str, new: Any) -> None:
    """Replace a name in every module of the server that has it, imported names included."""
    holders = [module for module in modules() if name in vars(module)]
    assert holders, f"no module has {name}"
    for module in holders:
        monkeypatch.setattr(module, name, new)
