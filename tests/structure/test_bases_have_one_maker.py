"""Where a figure comes from is made in one place, and no engine pins an edition.

`Standard.basis`, `.clause` and `.practice` make the basis of a standard, `other_source` that of one that is not held,
`practice` that of the trade, `stated_by_purchaser` that of an order. An engine asks for a standard by its number.
"""

from __future__ import annotations

import ast
import csv
import re
from collections.abc import Iterator
from typing import get_args

import pytest
from tree import ROOT

from boltwright_server.quantities.basis import CHECKED_WORDS, Method
from boltwright_server.standards import REGISTRY, all_standards
from boltwright_server.standards.other_sources import OTHER_SOURCES, other_source

SERVER = ROOT / "server/boltwright_server"
MAKERS = {"quantities/basis.py", "standards/table.py", "standards/editions.py", "standards/other_sources.py"}
#: A year behind the number of a standard, as the trade joins them.
CITED = re.compile(r"\b(?:ISO|ASME|ASTM|SAE|DIN|IEC) [A-Z]?[0-9][0-9.M-]*[:-](?:19|20)[0-9]{2}\b")
FILES = sorted(path for path in SERVER.rglob("*.py"))
NAMES = [str(path.relative_to(SERVER)) for path in FILES]


def calls(tree: ast.AST) -> Iterator[ast.Call]:
    return (node for node in ast.walk(tree) if isinstance(node, ast.Call))


def docstrings(tree: ast.AST) -> set[int]:
    holders = (ast.Module, ast.ClassDef, ast.FunctionDef)
    found = (node.body[0] for node in ast.walk(tree) if isinstance(node, holders) and node.body)
    return {id(one.value) for one in found if isinstance(one, ast.Expr)}


@pytest.mark.parametrize("name", [name for name in NAMES if name not in MAKERS])
def test_no_other_module_makes_a_basis(name: str) -> None:
    tree = ast.parse((SERVER / name).read_text(encoding="utf-8"))
    made = [
        call.lineno
        for call in calls(tree)
        if (isinstance(call.func, ast.Name) and call.func.id == "Basis")
        or (isinstance(call.func, ast.Call) and ast.unparse(call.func).startswith("type("))
    ]
    assert made == [], f"{name}: lines {made} make a basis"


@pytest.mark.parametrize("name", [name for name in NAMES if name != "standards/registry.py"])
def test_no_engine_names_a_folder(name: str) -> None:
    tree = ast.parse((SERVER / name).read_text(encoding="utf-8"))
    named = [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and node.value in REGISTRY]
    assert named == [], f"{name} names {named}: ask rules() by the number of the standard"


@pytest.mark.parametrize("name", [name for name in NAMES if not name.startswith("web/")])
def test_no_text_of_an_answer_names_an_edition_that_is_held(name: str) -> None:
    """Docstrings may: they say what the rule was read in. The rest takes the edition from the facts."""
    tree = ast.parse((SERVER / name).read_text(encoding="utf-8"))
    held = {one.cited for one in all_standards()}
    plain = docstrings(tree)
    texts = (
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in plain
    )
    named = [one for text in texts for one in CITED.findall(text) if one in held]
    assert named == [], f"{name} names {named}"


def test_every_other_source_says_how_it_was_checked() -> None:
    with OTHER_SOURCES.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    held = {one.id for one in all_standards()}
    for row in rows:
        assert row["method"] in get_args(Method), row
        assert row["checked"] in CHECKED_WORDS, row
        assert row["standard"] not in held, f"{row['standard']} is held: write it into [clauses] of its folder"
        assert other_source(row["standard"], row["clause"], row["edition"]).checked == row["checked"]
