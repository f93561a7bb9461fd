"""Every problem type has its page, is used, and is the only kind of code that is used."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask.testing import FlaskClient
from tree import SERVER

from boltwright_server.web.http.problems import PROBLEM_TYPES

#: What makes a problem; the code is the first argument, of a member's error the second.
RAISED = {"Problem", "problem", "MemberError", "PieceRefusal", "_refusal"}

#: Reserved for a service whose database is away.
AHEAD = {"not_ready"}


def codes_in(path: Path) -> Iterator[str]:
    """Yield the codes that a module speaks: `code="..."`, `code = "..."` in a class, `Problem("...")`."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.keyword) and node.arg == "code":
            yield from _texts(node.value)
        elif isinstance(node, ast.ClassDef):
            for line in node.body:
                if isinstance(line, ast.Assign) and getattr(line.targets[0], "id", "") == "code":
                    yield from _texts(line.value)
        elif isinstance(node, ast.Call) and _name(node.func) in RAISED and node.args:
            yield from _texts(node.args[1 if _name(node.func) == "MemberError" else 0])


def _name(node: ast.expr) -> str:
    return getattr(node, "id", getattr(node, "attr", ""))


def _texts(node: ast.expr) -> Iterator[str]:
    """Yield a text, or the texts that a conditional chooses from; a variable is some other line's text."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.IfExp):
        yield from (*_texts(node.body), *_texts(node.orelse))
    elif isinstance(node, ast.BoolOp):
        yield from (text for value in node.values for text in _texts(value))


def spoken() -> set[str]:
    return {code for path in SERVER.rglob("*.py") for code in codes_in(path)}


@pytest.mark.parametrize("code", PROBLEM_TYPES)
def test_a_type_has_a_page(code: str, client: FlaskClient) -> None:
    page = client.get(f"/docs/problems/{code}")
    assert page.status_code == 200
    assert PROBLEM_TYPES[code].title in page.get_data(as_text=True)


def test_an_unknown_type_has_none(client: FlaskClient) -> None:
    assert client.get("/docs/problems/no_such_code").status_code == 404


@pytest.mark.parametrize("code", sorted(set(PROBLEM_TYPES) - AHEAD))
def test_a_type_is_used(code: str) -> None:
    places = (SERVER / "web" / "http" / name for name in ("problems.py", "problem_response.py"))
    mapping = "".join(place.read_text(encoding="utf-8") for place in places)
    mapped = f': "{code}"' in mapping or f'return "{code}"' in mapping or f'"{code}" if' in mapping
    assert code in spoken() or mapped, f"nothing answers with {code}"


def test_no_code_is_without_a_type() -> None:
    """A code without a type would be answered as `invalid` with a page that does not explain it."""
    reasons = {
        "acceptance_number_exceeded",
        "within_acceptance_number",
        "second_sample_needed",
        "second_sample_passed",
        "nonconforming",
        "undecided",
        "missing",
        "sample_too_small",
        "all_conforming",
    }
    assert spoken() - set(PROBLEM_TYPES) - reasons - {"refused"} == set()
