"""The locks pin what pyproject.toml asks for, by plain name, version and hash."""

from __future__ import annotations

import re
import tomllib

import pytest
from tree import ROOT

LOCKS = {"server/lock.txt": ("server",), "tests/lock.txt": ("server", "docs", "dev")}
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
_PIN = re.compile(r"([a-z0-9-]+)==[^\s;]+(?: ; [^\\]+)? \\\n((?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)")


def _names(requirements: list[str]) -> set[str]:
    found = (re.match(r"[A-Za-z0-9-]+", requirement) for requirement in requirements)
    return {match[0].lower() for match in found if match} - {"boltwright"}


@pytest.mark.parametrize("lock", LOCKS)
def test_every_dependency_is_pinned(lock: str) -> None:
    text = (ROOT / lock).read_text(encoding="utf-8")
    wanted = _names(PROJECT["dependencies"])
    for extra in LOCKS[lock]:
        wanted |= _names(PROJECT["optional-dependencies"][extra])
    pinned = {name for name, _ in _PIN.findall(text)}
    assert wanted <= pinned, "run python tests/lock_dependencies.py"


@pytest.mark.parametrize("lock", LOCKS)
def test_a_lock_holds_names_versions_and_hashes_and_nothing_else(lock: str) -> None:
    """No address of a package index, no local path, no comment."""
    assert not _PIN.sub("", (ROOT / lock).read_text(encoding="utf-8"))
