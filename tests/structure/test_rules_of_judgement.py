"""The page "Rules of judgement" is written from tests/judgement: every chapter is there, every rule has an example."""

import ast
import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]
RULES = ROOT / "tests" / "judgement"
FILES = sorted(path.stem for path in RULES.glob("test_*.py"))


@pytest.fixture(scope="module")
def generate() -> ModuleType:
    spec = importlib.util.spec_from_file_location("generate", ROOT / "docs" / "generate.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    with pytest.MonkeyPatch.context() as patch:
        # It imports the pages written by its neighbours.
        patch.syspath_prepend(str(ROOT / "docs"))
        spec.loader.exec_module(module)
    return module


def test_every_chapter_is_listed_once(generate: ModuleType) -> None:
    assert sorted(generate.CHAPTERS) == FILES


@pytest.mark.parametrize("name", FILES)
def test_every_rule_has_an_example_on_the_page(name: str, generate: ModuleType) -> None:
    page = "\n".join(generate._judgement())
    module = ast.parse((RULES / f"{name}.py").read_text(encoding="utf-8"))
    title, _, text = (ast.get_docstring(module) or "").partition("\n")
    assert f"## {title}" in page
    assert len(text.strip()) > 50, f"{name} says nothing of its rules"
    for node in module.body:
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            example = " ".join((ast.get_docstring(node) or "").split())
            assert example, f"{name}: {node.name} has no example"
            assert f"- **{node.name[5:].replace('_', ' ').capitalize()}.** {example}" in page
