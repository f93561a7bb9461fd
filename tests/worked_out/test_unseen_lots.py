"""Whole lots whose verdict was worked out by hand from the standards and the wire contract, the engine unseen."""

import copy
import json
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

FILES = [Path(__file__).with_name(f"unseen_lots_2026_11{set_}.toml") for set_ in ("", "_second")]
DESTRUCTIVE = ("tensile_load", "fracture_location", "proof_load_set", "nut_proof_load")
BOOKS: list[dict[str, Any]] = [tomllib.loads(file.read_text(encoding="utf-8")) for file in FILES]
BOOK: dict[str, Any] = {
    "lots": {name: lot for book in BOOKS for name, lot in book["lots"].items()},
    "cases": [case for book in BOOKS for case in book["cases"]],
}
Case = dict[str, Any]


def nulls(value: Any) -> Any:
    """TOML has no null: the text stands for it."""
    if isinstance(value, dict):
        return {name: nulls(one) for name, one in value.items()}
    if isinstance(value, list):
        return [nulls(one) for one in value]
    return None if value == "null" else value


def request_of(case: Case) -> dict[str, Any]:
    lot = copy.deepcopy(BOOK["lots"][case["lot"]])
    readings = lot["readings"]
    if "repeat" in case:
        _repeat(readings, case["repeat"])
    for name, pieces in case.get("set_piece", {}).items():
        for index, value in pieces.items():
            readings[name][int(index)] = value
    readings |= case.get("set", {})
    kept = {name: column for name, column in readings.items() if name not in case.get("drop", ())}
    body = {"designation": lot["designation"], **case.get("request", {}), "readings": kept}
    return dict(nulls(body))


def _repeat(readings: dict[str, Any], count: int) -> None:
    """The first readings of each non-destructive column again, until there are so many pieces."""
    for name, column in readings.items():
        if name in DESTRUCTIVE:
            continue
        values = column["values"] if isinstance(column, dict) else column
        values[:] = (values * count)[:count]


def ids(entries: list[Any]) -> set[str]:
    return {entry if isinstance(entry, str) else entry.get("id", entry.get("characteristic")) for entry in entries}


def sentences(answer: dict[str, Any]) -> str:
    told = [*answer["reasons"], *answer["notices"]]
    return "\n".join(one if isinstance(one, str) else one["detail"] for one in told)


def faults(answer: dict[str, Any], expect: dict[str, Any]) -> list[str]:
    """What the answer says otherwise than by hand."""
    return [*_members(answer, expect), *_lists(answer, expect), *_columns(answer, expect), *_words(answer, expect)]


def _members(answer: dict[str, Any], expect: dict[str, Any]) -> list[str]:
    wrong = []
    for member in ("verdict", "conforms_to_standard"):
        wanted = nulls(expect[member]) if member in expect else ...
        found = answer.get(member, "no such member")
        if wanted is not ... and found != wanted:
            wrong.append(f"{member} is {found!r}, by hand {wanted!r}")
    if answer["verdict"] == expect.get("not_verdict"):
        wrong.append(f"verdict is {answer['verdict']!r}")
    if expect.get("no_class_mark"):
        carried = [name for name in ("marking", "class_mark", "package_marking") if answer.get(name)]
        wrong.extend(f"carries {name}: {answer[name]!r}" for name in carried)
    return wrong


def _lists(answer: dict[str, Any], expect: dict[str, Any]) -> list[str]:
    wrong = [
        f"{member}: {answer.get(member)}, by hand {expect[member]}"
        for member in ("missing", "deviations")
        if member in expect and ids(answer.get(member, ["no such member"])) != set(expect[member])
    ]
    for member in ("missing", "not_looked_at"):
        lacking = set(expect.get(f"{member}_has", [])) - ids(answer.get(member, []))
        wrong.extend(f"{member} lacks {name}" for name in sorted(lacking))
    return wrong


def _columns(answer: dict[str, Any], expect: dict[str, Any]) -> list[str]:
    wanted = {
        "verdict": expect.get("characteristics", {}),
        "nonconforming_pieces": expect.get("pieces", {}),
        "undecided_count": expect.get("undecided", {}),
        "count": expect.get("counts", {}),
    }
    judged = answer["characteristics"]
    found = [
        (name, member, judged.get(name, {}).get(member), by_hand)
        for member, of in wanted.items()
        for name, by_hand in of.items()
    ]
    wrong = [
        f"{name}: {member} is {said!r}, by hand {by_hand!r}" for name, member, said, by_hand in found if said != by_hand
    ]
    for name, checked in expect.get("checked", {}).items():
        said = (judged.get(name, {}).get("basis") or {}).get("checked")
        if said != checked:
            wrong.append(f"{name}: checked {said!r}, should be {checked!r}")
    return wrong


def _words(answer: dict[str, Any], expect: dict[str, Any]) -> list[str]:
    text = sentences(answer)
    return [
        f"no sentence says {pattern!r}:\n{text}" for pattern in expect.get("words", []) if not re.search(pattern, text)
    ]


@pytest.mark.parametrize("case", BOOK["cases"], ids=lambda case: case["name"])
def test_the_verdict_is_the_one_that_was_worked_out_by_hand(client: FlaskClient, case: Case) -> None:
    response = client.post("/v1/conformance", json=request_of(case))
    expect = case["expect"]
    assert response.status_code == expect.get("status", 200), response.text[:600]
    if response.status_code == 200:
        wrong = faults(response.get_json(), expect)
        assert not wrong, "\n".join(wrong)
    else:
        assert response.get_json()["detail"]


@pytest.mark.parametrize("lot", BOOK["lots"])
def test_a_stream_of_blocks_has_the_verdict_of_the_whole(client: FlaskClient, lot: str) -> None:
    """The first block holds all columns but their last piece, the second the last one; outliers are not computed."""
    whole = client.post("/v1/conformance", json=BOOK["lots"][lot])
    assert whole.status_code == 200, whole.text[:600]
    body = "\n".join(json.dumps(line) for line in _blocks(BOOK["lots"][lot]))
    answer = client.post("/v1/conformance", data=body, content_type="application/x-ndjson")
    assert answer.status_code == 200, answer.text[:600]
    streamed = answer.get_json()
    assert streamed["verdict"] == whole.get_json()["verdict"]
    computed = [name for name, one in streamed["characteristics"].items() if one.get("outlying_pieces") is not None]
    assert computed == [], "an empty list would say that there are none"


def _blocks(lot: dict[str, Any]) -> list[dict[str, Any]]:
    columns = {name: (one if isinstance(one, dict) else {"values": one}) for name, one in lot["readings"].items()}
    parts = [
        {n: {**one, "values": one["values"][part]} for n, one in columns.items()}
        for part in (slice(-1), slice(-1, None))
    ]
    return [{"designation": lot["designation"]}, *({"readings": part} for part in parts)]


def test_every_lot_of_the_book_is_used() -> None:
    assert {case["lot"] for case in BOOK["cases"]} == set(BOOK["lots"])
    names = [case["name"] for case in BOOK["cases"]]
    assert len(names) == len(set(names)) >= 60
