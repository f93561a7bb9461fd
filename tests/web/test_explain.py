"""explain=true: the derivation in the JSON answer, and as a page."""

from __future__ import annotations

from typing import Any

import pytest
from exact_steps import recompute
from flask.testing import FlaskClient

LOOK_UPS = [
    ("/v1/thread-limits", {"designation": "M10-6g"}),
    ("/v1/thread-limits", {"designation": "M10-6H/6g"}),
    ("/v1/thread-limits", {"designation": "M12-6az"}),
    ("/v1/mechanical-minimums", {"thread": "M10", "property_class": "8.8"}),
    ("/v1/mechanical-minimums", {"thread": "M10x1", "property_class": "10"}),
    ("/v1/mechanical-minimums", {"thread": "M10", "property_class": "A2-70"}),
    ("/v1/gauge-sizes", {"designation": "M10-6g"}),
    ("/v1/gauge-sizes", {"designation": "M10-6H/6g"}),
    ("/v1/gauge-sizes", {"designation": "M10-6H", "standard": "ASME B1.16M"}),
    ("/v1/thread-limits", {"designation": "1/2-13 UNC-2B/2A"}),
    ("/v1/thread-limits", {"designation": "#6-32 UNC-3B"}),
    ("/v1/gauge-sizes", {"designation": "1/2-13 UNC-2A"}),
    ("/v1/gauge-sizes", {"designation": "1/2-13 UNC-2B"}),
    ("/v1/product-dimensions", {"standard": "ISO 4014", "size": "M10", "length": "60"}),
    ("/v1/product-dimensions", {"standard": "ISO 4762", "size": "M10", "length": "25"}),
]


def at(answer: dict[str, Any], path: str) -> Any:
    value: Any = answer
    for name in path.split("."):
        named = {one["id"]: one for one in value} if isinstance(value, list) else value
        value = named[name]
    return value


@pytest.mark.parametrize(("url", "query"), LOOK_UPS)
def test_the_steps_recompute_to_the_answer(client: FlaskClient, url: str, query: dict[str, str]) -> None:
    answer = client.get(url, query_string={**query, "explain": "true"})
    assert answer.status_code == 200
    body = answer.get_json()
    members = [body[name] for name in ("external", "internal") if name in body] or [body]
    for member in members:
        assert recompute(member["derivation"]) == []
        for step in member["derivation"]:
            if step["answers"] is not None:
                assert at(member, step["answers"]) == step["rounded"]


@pytest.mark.parametrize(("url", "query"), LOOK_UPS)
def test_nothing_else_changes(client: FlaskClient, url: str, query: dict[str, str]) -> None:
    plain = client.get(url, query_string=query).get_json()
    explained = client.get(url, query_string={**query, "explain": "true"}).get_json()
    for member in (explained, explained.get("external", {}), explained.get("internal", {})):
        member.pop("derivation", None)
    assert explained == plain


@pytest.mark.parametrize(("url", "query"), LOOK_UPS)
def test_the_page_shows_every_step(client: FlaskClient, url: str, query: dict[str, str]) -> None:
    page = client.get(url, query_string={**query, "explain": "true"}, headers={"Accept": "text/html"})
    assert page.mimetype == "text/html"
    text = page.get_data(as_text=True)
    body = client.get(url, query_string={**query, "explain": "true"}).get_json()
    members = [body[name] for name in ("external", "internal") if name in body] or [body]
    for member in members:
        for step in member["derivation"]:
            assert f"{step['symbol']} = {step['expression']}" in text
    assert page.headers["ETag"] != client.get(url, query_string={**query, "explain": "true"}).headers["ETag"]


def test_where_all_is_tabulated_there_are_no_steps(client: FlaskClient) -> None:
    query = {"standard": "ISO 4032", "size": "M10", "explain": "true"}
    assert client.get("/v1/product-dimensions", query_string=query).get_json()["derivation"] == []
