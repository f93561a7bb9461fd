"""The layers of the house are kept: who may import whom stands in pyproject.toml, with the reasons beside it."""

import re
import subprocess
import sys
import tomllib
from pathlib import Path

from running_server import environment
from tree import ROOT, SERVER


def contracts() -> list[dict[str, object]]:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    found: list[dict[str, object]] = settings["tool"]["importlinter"]["contracts"]
    return found


def test_no_layer_imports_from_above() -> None:
    program = Path(sys.executable).with_name("lint-imports")
    run = subprocess.run([program, "--no-cache"], cwd=ROOT, env=environment(), capture_output=True, text=True)
    assert run.returncode == 0, run.stdout + run.stderr


def test_every_package_of_the_server_is_a_layer() -> None:
    """A package that no layer names would be free to import anything."""
    layers = next(contract for contract in contracts() if contract["type"] == "layers")["layers"]
    assert isinstance(layers, list)
    named = {name for layer in layers for name in re.findall(r"boltwright_server\.(\w+)", layer)}
    packages = {path.parent.name for path in SERVER.glob("*/__init__.py")}
    assert packages - named == set()


def test_engines_are_forbidden_to_know_http() -> None:
    """Every package but web stands in the contract that forbids Flask and marshmallow."""
    forbidden = next(
        one
        for one in contracts()
        if "flask" in one.get("forbidden_modules", ()) and "boltwright" not in one["source_modules"]
    )
    sources = forbidden["source_modules"]
    assert isinstance(sources, list)
    packages = {f"boltwright_server.{path.parent.name}" for path in SERVER.glob("*/__init__.py")}
    assert packages - set(sources) <= {"boltwright_server.web", "boltwright_server.serving"}


def test_hardness_conversion_is_used_by_its_own_resource_alone() -> None:
    """It is an estimate: no limit, verdict or finding may rest on it (ISO 18265, ASTM E140)."""
    named = re.compile(r"^\s*from .*hardness_conversion import|import hardness_conversion", re.MULTILINE)
    users = [path for path in SERVER.rglob("*.py") if named.search(path.read_text(encoding="utf-8"))]
    assert [path.relative_to(SERVER).as_posix() for path in users] == ["web/look_ups/hardness_conversion.py"]
