"""GET /v1/threads: filters and pages."""

from __future__ import annotations

from typing import Any
from urllib.parse import parse_qs, urlsplit

import pytest
from flask.testing import FlaskClient

from boltwright_server.threads import SYSTEMS

URL = "/v1/threads"


def ask(client: FlaskClient, **query: Any) -> dict[str, Any]:
    answer = client.get(URL, query_string=query)
    assert answer.status_code == 200, answer.get_json()
    return answer.get_json()


def names(found: dict[str, Any]) -> list[str]:
    return [one["designation"] for one in found["threads"]]


def test_every_thread_comes_once_over_all_pages(client: FlaskClient) -> None:
    every = [size.designation for system in SYSTEMS for size in system.sizes()]
    seen: list[str] = []
    query: dict[str, Any] = {"limit": 97}
    while True:
        page = ask(client, **query)
        seen += names(page)
        assert page["total"] == len(every)
        if page["next"] is None:
            break
        query = {"limit": 97, "cursor": page["next"]}
    assert seen == every


def test_the_link_header_leads_to_the_next_page(client: FlaskClient) -> None:
    first = client.get(URL, query_string={"system": "ISO metric", "limit": 10})
    again = client.get(URL, query_string={"system": "ISO metric", "limit": 10})
    assert first.headers["Link"] == again.headers["Link"]
    target = first.headers["Link"].split(";")[0].strip("<>")
    assert parse_qs(urlsplit(target).query)["cursor"] == [first.get_json()["next"]]
    following = client.get(target)
    assert names(following.get_json())[0] not in names(first.get_json())
    last = client.get(URL, query_string={"series": "coarse", "limit": 500})
    assert "Link" not in last.headers


def test_filters(client: FlaskClient) -> None:
    """ISO 261:1998, Table 2: coarse threads of first choice from M10 to M16."""
    found = ask(client, series="coarse", choice=1, min_diameter="10", max_diameter="16")
    assert names(found) == ["M10", "M12", "M16"]


def test_diameters_are_taken_in_the_unit_named(client: FlaskClient) -> None:
    """1/2 in = 12.7 mm: nothing metric lies there."""
    by_inch = ask(client, min_diameter="0.5", max_diameter="0.5", unit="in", limit=500)
    by_mm = ask(client, min_diameter="12.7", max_diameter="12.7", limit=500)
    of_system = ask(client, system="unified inch", min_diameter="0.5", max_diameter="0.5", limit=500)
    assert names(by_inch) == names(by_mm) == names(of_system)
    assert "1/2-13 UNC" in names(by_inch)


@pytest.mark.parametrize(
    ("query", "status", "code", "pointer"),
    [
        ({"system": "BSW"}, 404, "unknown_name", "/system"),
        ({"series": "gross"}, 404, "unknown_name", "/series"),
        ({"limit": "0"}, 422, "invalid", "/limit"),
        ({"limit": "501"}, 422, "invalid", "/limit"),
        ({"choice": "4"}, 422, "invalid", "/choice"),
        ({"min_diameter": "NaN"}, 422, "wrong_type", "/min_diameter"),
        ({"min_diameter": "1_0"}, 422, "wrong_type", "/min_diameter"),
        ({"min_diameter": "1e400"}, 422, "wrong_type", "/min_diameter"),
        ({"min_diameter": "ten"}, 422, "wrong_type", "/min_diameter"),
        ({"min_diameter": "12", "max_diameter": "10"}, 422, "contradiction", "/min_diameter"),
        ({"cursor": "nonsense"}, 422, "bad_cursor", "/cursor"),
        ({"cursor": "%%%"}, 422, "bad_cursor", "/cursor"),
        ({"offset": "3"}, 422, "unknown_member", "/offset"),
    ],
)
def test_refusals(client: FlaskClient, query: dict[str, str], status: int, code: str, pointer: str) -> None:
    answer = client.get(URL, query_string=query)
    problem = answer.get_json()
    assert (answer.status_code, problem["code"], problem["errors"][0]["pointer"]) == (status, code, pointer)


def test_a_cursor_is_good_for_its_own_filters_only(client: FlaskClient) -> None:
    cursor = ask(client, series="coarse", limit=5)["next"]
    answer = client.get(URL, query_string={"series": "fine", "limit": 5, "cursor": cursor})
    assert answer.get_json()["code"] == "bad_cursor"
