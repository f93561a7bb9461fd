"""One feature, one name: the URL, the resource module, the SDK module, the docs page and the test file agree."""

import pytest
from flask import Flask
from tree import ROOT, SDK

from boltwright_server.web.app import BLUEPRINTS

NAMES = [blueprint.name for blueprint in BLUEPRINTS]


def owner(name: str) -> str:
    """Return the resource to which a part such as conformance_replay belongs, or the resource itself."""
    owners = [other for other in NAMES if name.startswith(f"{other}_")]
    return max(owners, key=len, default=name)


def test_blueprints_are_named_after_their_modules() -> None:
    for blueprint in BLUEPRINTS:
        assert blueprint.import_name == blueprint.name
    folder = ROOT / "server" / "boltwright_server" / "web"
    modules = {path.stem for path in folder.glob("*/*.py") if "\nblueprint = " in path.read_text(encoding="utf-8")}
    pages = {"health", "metrics", "pages"}
    assert modules - pages == set(NAMES), "a resource module is not registered in the BLUEPRINTS of its room"


@pytest.mark.parametrize("name", NAMES)
def test_the_url_is_the_name(name: str, application: Flask) -> None:
    rules = [rule.rule for rule in application.url_map.iter_rules() if rule.endpoint.split(".")[0] == name]
    assert rules
    for rule in rules:
        flat = rule.removeprefix("/v1/").replace("-", "_").replace("/", "_")
        assert flat.startswith(owner(name)), f"{rule} is served by {name}"


@pytest.mark.parametrize("name", NAMES)
def test_a_resource_has_a_docs_page(name: str) -> None:
    assert (ROOT / "docs" / "resources" / f"{owner(name)}.md").is_file(), f"docs/resources/{owner(name)}.md is missing"


@pytest.mark.parametrize("name", NAMES)
def test_a_resource_has_an_sdk_module(name: str) -> None:
    assert list(SDK.glob(f"*/{owner(name)}.py")), f"sdk/boltwright/<room>/{owner(name)}.py is missing"


@pytest.mark.parametrize("name", NAMES)
def test_a_resource_has_a_test_file(name: str) -> None:
    assert (ROOT / "tests" / "web" / f"test_{name}.py").is_file(), f"tests/web/test_{name}.py is missing"
