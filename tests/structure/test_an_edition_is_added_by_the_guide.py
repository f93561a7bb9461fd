"""Further editions of known rules become part of a copy of the tree by their folders and lines alone, without code.

Made-up editions of 2031 stand beside those held, each with one figure moved, so that an answer tells which was used.
DEVELOPERS.md: the last line of a standard is its current edition.
"""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from test_a_standard_is_added_by_the_guide import run
from tree import ROOT

#: Folder held -> (its number and edition, file, row as it stands, the row with a made-up figure).
MOVED = {
    "iso_898_1_2013": ("ISO 898-1:2013", "table_4.csv", "34800,46400,", "34800,46500,"),
    "iso_898_2_2012": ("ISO 898-2:2012", "table_4.csv", "39400,50500,", "39400,50600,"),
    "iso_965_1_2013": ("ISO 965-1:2013", "table_1.csv", "-67,-45,-32,", "-67,-45,-33,"),
    "iso_3506_1_2009": ("ISO 3506-1:2009", "table_2.csv", "A2,70,700,", "A2,70,710,"),
    "iso_4042_2018": ("ISO 4042:2018", "clause_4_4.csv", "C,390,no,", "C,370,no,"),
}
#: Members that show the limits of several editions side by side.
BY_EDITION = {"disputed"}
ASKED = {
    "bolt": "/v1/mechanical-minimums?thread=M10&property_class=8.8",
    "nut": "/v1/mechanical-minimums?thread=M10&property_class=8&member=internal",
    "nut, no such class": "/v1/mechanical-minimums?thread=M4&property_class=8&member=internal",
    "stainless": "/v1/mechanical-minimums?thread=M10&property_class=A2-70",
    "bolt, step by step": "/v1/mechanical-minimums?thread=M10&property_class=8.8&explain=true",
    "hard bolt": "/v1/specification?designation=ISO%204014%20-%20M10x60%20-%2012.9",
    "pair": "/v1/pairing?bolt=M10%20-%208.8",
    "thread": "/v1/thread-limits?designation=M10-6g&explain=true",
    "coating": "/v1/coating-limits?designation=M10-6g&coating=Fe/Zn8&property_class=10.9",
    "bolt as a product": "/v1/specification?designation=ISO%204014%20-%20M10x60%20-%208.8",
    "nut as a product": "/v1/specification?designation=ISO%204032%20-%20M10%20-%208",
    "stainless product": "/v1/specification?designation=ISO%204014%20-%20M10x60%20-%20A2-70",
    "listed": "/v1/standards",
}
ASK = f"""\
import json
from boltwright_server.web.app import create_app
client = create_app().test_client()
print(json.dumps({{name: client.get(path).get_json() for name, path in {ASKED!r}.items()}}))
"""


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What a copy of the tree answers in which the made-up editions are registered last."""
    copy = tmp_path_factory.mktemp("copy")
    shutil.copytree(ROOT / "server", copy / "server", ignore=shutil.ignore_patterns("__pycache__", "*.egg-info"))
    for folder, moved in MOVED.items():
        _add(copy / "server/boltwright_server/standards", folder, *moved)
    answer = run(copy, "-c", ASK)
    assert answer.returncode == 0, answer.stderr
    found: dict[str, Any] = json.loads(answer.stdout)
    return found


def _add(standards: Path, folder: str, held: str, file: str, stands: str, moved: str) -> None:
    edition = held.rpartition(":")[2]
    new = shutil.copytree(standards / folder, standards / folder.replace(edition, "2031"))
    about, table, registry = new / "standard.toml", new / file, standards / "registry.py"
    last = '    "inch_threaded_rod_as_ordered",\n'
    for path, old, text in (
        (about, f'edition = "{edition}"', 'edition = "2031"'),
        (table, stands, moved),
        (registry, last, f'{last}    "{new.name}",\n'),
    ):
        content = path.read_text(encoding="utf-8")
        assert content.count(old) == 1, (path, old)
        path.write_text(content.replace(old, text), encoding="utf-8")


def _is(limit: dict[str, Any], end: str, value: float, standard: str) -> bool:
    basis = limit["basis"]
    return (limit[end], basis["standard"], basis["edition"]) == (value, standard, "2031")


def test_the_figures_of_the_further_edition_answer(answers: dict[str, Any]) -> None:
    bolt, nut, stainless = (answers[name] for name in ("bolt", "nut", "stainless"))
    assert _is(bolt["loads"]["tensile_load"], "min", 46500, "ISO 898-1")
    assert _is(nut["loads"]["proof_load"], "min", 50600, "ISO 898-2")
    assert _is(stainless["properties"]["tensile_strength"], "min", 710, "ISO 3506-1")
    assert _is(answers["thread"]["limits"]["major_diameter"], "max", 9.967, "ISO 965-1")
    assert [one["edition"] for one in (bolt, nut, stainless)] == ["2031"] * 3
    risk = answers["coating"]["hydrogen_embrittlement"]
    assert (risk["group"], risk["basis"]["edition"]) == ("C", "2031")
    assert "ISO 4042:2031 asks for baking" in " ".join(answers["coating"]["cautions"])


@pytest.mark.parametrize("name", [name for name in ASKED if name != "listed"])
def test_no_answer_names_the_edition_before(answers: dict[str, Any], name: str) -> None:
    """In a basis or in words; what ISO 4042 of 1999 and ISO 3506-1 of 2020 hold alone is still theirs."""
    told = json.dumps(answers[name])
    before = [held for held, *_ in MOVED.values()]
    assert [held for held in before if held in told] == []
    bases = {f"{one['standard']}:{one['edition']}" for one in _bases(answers[name])}
    assert not bases & set(before)


def test_what_is_held_of_an_edition_alone_stays_its_own(answers: dict[str, Any]) -> None:
    assert {one["basis"]["edition"] for one in answers["stainless"]["chemical_composition"]} == {"2020"}
    thickness = answers["coating"]["coating"]["thickness"]["local"]["basis"]
    assert (thickness["standard"], thickness["edition"]) == ("ISO 4042", "1999")


def test_the_edition_before_is_still_held(answers: dict[str, Any]) -> None:
    listed = {f"{one['id']}:{one['edition']}" for one in answers["listed"]["standards"]}
    assert {held for held, *_ in MOVED.values()} <= listed


def _bases(answer: Any) -> list[dict[str, str]]:
    """Every basis in an answer, wherever it stands."""
    if isinstance(answer, list):
        return [basis for one in answer for basis in _bases(one)]
    if not isinstance(answer, dict):
        return []
    own = [answer] if {"standard", "edition", "clause"} <= answer.keys() else []
    return [*own, *(basis for name, one in answer.items() if name not in BY_EDITION for basis in _bases(one))]
