"""What is known of a characteristic stands in its book: ids are typed in few files.

Counted are ids of two words or more; `length` or `marking` are everyday words too. The engines and the drawings of a
form, and what a machine of a form is set to, speak of its dimensions and loads by nature.
"""

from __future__ import annotations

import ast
from pathlib import Path

from tree import SDK, SERVER

from boltwright_server.specification.characteristic import traits

OF_A_FORM = ("products", "mechanical", "coating", "documents/drawings", "stations")
#: Lower them when the number falls.
MOST_ELSEWHERE, MOST = 25, 65


def files() -> list[str]:
    """Return the files in which an id stands as a literal."""
    ids = {id for id in traits() if "_" in id}
    return [
        str(path.relative_to(root))
        for root in (SERVER, SDK)
        for path in sorted(root.rglob("*.py"))
        if ids & _literals(path)
    ]


def _literals(path: Path) -> set[object]:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)}


def test_ids_stand_in_few_files() -> None:
    found = files()
    elsewhere = [name for name in found if not name.startswith(OF_A_FORM)]
    assert len(elsewhere) <= MOST_ELSEWHERE, f"ask the book by role, scale or words (characteristics.csv): {elsewhere}"
    assert len(found) <= MOST, f"ask the book by role, scale or words (characteristics.csv): {found}"
