"""What is remembered goes through the one keeper."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask.testing import FlaskClient
from tree import SERVER

from boltwright_server.quantities.keeper import KEEPER

CACHES = {"cache", "lru_cache"}
#: The keeper itself, and a store by bytes that is known to it.
ALLOWED = {"quantities/keeper.py", "web/http/caching.py"}


def caches_in(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module == "functools":
            yield from (one.name for one in node.names if one.name in CACHES)
        elif isinstance(node, ast.ImportFrom) and (node.module or "").startswith("cachetools"):
            yield "cachetools"
        elif isinstance(node, ast.Attribute) and node.attr in CACHES:
            yield node.attr


@pytest.mark.parametrize("path", sorted(SERVER.rglob("*.py")), ids=lambda path: str(path.relative_to(SERVER)))
def test_no_module_remembers_by_itself(path: Path) -> None:
    if str(path.relative_to(SERVER)) not in ALLOWED:
        assert not set(caches_in(path)), "remember through quantities/keeper.py: @remembered(...)"


def test_every_memory_is_named_after_its_module() -> None:
    assert len(KEEPER.memories) > 50
    assert all(name.startswith("boltwright_server.") for name in KEEPER.memories if not name.startswith("tests"))


def test_what_is_remembered_stands_in_the_metrics(client: FlaskClient) -> None:
    client.get("/v1/thread-limits?designation=M10-6g")
    text = client.get("/metrics").text
    sizes = {
        line.split()[0]: float(line.split()[1])
        for line in text.splitlines()
        if "boltwright_remembered_" in line and line[0] != "#"
    }
    assert sizes['boltwright_remembered_bytes{room="threads"}'] > 1000
    assert sizes['boltwright_remembered_entries{room="threads"}'] > 1
    assert "boltwright_memories_forgotten" in text
