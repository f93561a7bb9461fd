"""The committed snapshot of every limit is what the engines answer: a number that moves shows as a line.

A change that is meant: `python tests/snapshots/thread_limits.py`, and say in the commit which sizes move and why.
"""

from __future__ import annotations

import difflib
import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

HERE = Path(__file__).parent


def _generator() -> ModuleType:
    spec = importlib.util.spec_from_file_location("snapshot_of_thread_limits", HERE / "thread_limits.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


FILES: dict[str, str] = _generator().files()


@pytest.mark.parametrize("name", FILES)
def test_every_limit_is_as_committed(name: str) -> None:
    committed, now = (HERE / name).read_text(encoding="utf-8"), FILES[name]
    if committed != now:
        changed = [
            line
            for line in difflib.unified_diff(committed.splitlines(), now.splitlines(), "committed", "now", n=0)
            if not line.startswith("@@")
        ]
        pytest.fail(f"{name}: {len(changed)} lines differ\n" + "\n".join(changed[:40]))


def test_the_matrix_is_whole() -> None:
    """ISO 261 and ASME B1.1, Table 1; no file without a line, and none left from before."""
    assert {path.name for path in HERE.glob("thread_limits*.csv")} == set(FILES)
    assert sum(text.count("\n") - 1 for text in FILES.values()) > 15_000
