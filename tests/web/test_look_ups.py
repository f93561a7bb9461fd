"""What all look-ups share: fingerprint, ETag and 304, Cache-Control, refused parameters, methods, bases.

RFC 9110, 8.8.3 and 15.4.5; the wire contract, "Common".
"""

import json
import re
from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

from boltwright_server.quantities import CHECKED_WORDS
from boltwright_server.standards.fingerprint import fingerprint

LOOK_UPS = {
    "/v1/standards": {},
    "/v1/units": {},
    "/v1/thread-limits": {"designation": "M10-6g"},
    "/v1/gauge-sizes": {"designation": "M10-6g"},
    "/v1/mechanical-minimums": {"thread": "M10", "property_class": "8.8"},
    "/v1/pairing": {"bolt": "M10 - 8.8"},
    "/v1/hardness-conversion": {"value": "320", "from": "HV", "to": "HRC"},
    "/v1/product-dimensions": {"standard": "ISO 4014", "size": "M10", "length": "60"},
    "/v1/specification": {"designation": "ISO 4014 - M10x60 - 8.8"},
    "/v1/sampling-plan": {"scheme": "ISO 2859-1", "lot_size": "12000", "aql": "1.0"},
}
look_ups = pytest.mark.parametrize(("path", "query"), LOOK_UPS.items(), ids=LOOK_UPS)


def walk(node: Any) -> Any:
    """Yield every object inside an answer."""
    if isinstance(node, dict):
        yield node
    for inner in node.values() if isinstance(node, dict) else node if isinstance(node, list) else ():
        yield from walk(inner)


@look_ups
def test_an_answer_carries_the_fingerprint_and_may_be_cached(
    path: str, query: dict[str, str], client: FlaskClient
) -> None:
    answer = client.get(path, query_string=query)
    assert answer.status_code == 200
    assert answer.mimetype == "application/json"
    assert answer.get_json()["fingerprint"] == fingerprint()
    assert "max-age" in answer.headers["Cache-Control"]
    assert "Accept" in answer.headers["Vary"]


@look_ups
def test_a_known_etag_is_answered_with_304(path: str, query: dict[str, str], client: FlaskClient) -> None:
    first = client.get(path, query_string=query)
    tag = first.headers["ETag"]
    assert re.fullmatch(r'"[^"]+"', tag), "a strong tag"
    again = client.get(path, query_string=query, headers={"If-None-Match": tag})
    assert (again.status_code, again.get_data()) == (304, b"")
    assert again.headers["ETag"] == tag
    for other in ('"0"', 'W/"0"'):
        assert client.get(path, query_string=query, headers={"If-None-Match": other}).status_code == 200
    assert client.get(path, query_string=query, headers={"If-None-Match": "*"}).status_code == 304


@look_ups
def test_same_request_same_bytes(path: str, query: dict[str, str], client: FlaskClient) -> None:
    assert client.get(path, query_string=query).get_data() == client.get(path, query_string=query).get_data()


@look_ups
def test_a_misspelt_parameter_is_refused(path: str, query: dict[str, str], client: FlaskClient) -> None:
    found = problem(client.get(path, query_string={**query, "desigantion": "M10"}), 422, "unknown_member")
    assert pointers(found) == ["/desigantion"]


@pytest.mark.parametrize(("path", "query"), [(path, query) for path, query in LOOK_UPS.items() if query])
def test_a_missing_parameter_is_named(path: str, query: dict[str, str], client: FlaskClient) -> None:
    needed = {"length", "property_class", "aql"}
    for name in set(query) - needed:
        rest = {other: value for other, value in query.items() if other != name}
        found = problem(client.get(path, query_string=rest), 422, "missing_member")
        assert f"/{name}" in pointers(found)


@look_ups
@pytest.mark.parametrize("method", ["PUT", "PATCH", "DELETE"])
def test_a_look_up_is_read_only(path: str, query: dict[str, str], method: str, client: FlaskClient) -> None:
    answer = client.open(path, method=method, query_string=query)
    problem(answer, 405, "method_not_allowed")
    assert "GET" in answer.headers["Allow"]


@look_ups
def test_every_bound_has_a_unit_and_every_basis_is_whole(path: str, query: dict[str, str], client: FlaskClient) -> None:
    for node in walk(client.get(path, query_string=query).get_json()):
        if "symbol" in node and {"min", "max"} <= set(node):
            assert node["basis"]
            assert node["unit"] or not [node.get(side) for side in ("min", "max", "nominal") if node.get(side)], node
        if "basis" in node:
            basis = node["basis"]
            assert {"standard", "edition", "clause", "method", "checked"} <= set(basis)
            assert basis["method"] in ("tabulated", "computed", "common practice")
            assert basis["checked"] in CHECKED_WORDS
            assert all(basis[name] for name in ("standard", "edition", "clause"))


@look_ups
def test_an_answer_is_strict_json(path: str, query: dict[str, str], client: FlaskClient) -> None:
    def refuse(name: str) -> None:
        raise AssertionError(f"{name} is no JSON")

    json.loads(client.get(path, query_string=query).get_data(), parse_constant=refuse)


def test_an_unknown_path_is_a_problem(client: FlaskClient) -> None:
    problem(client.get("/v1/thread_limits", query_string={"designation": "M10-6g"}), 404, "not_found")
    problem(client.get("/nothing"), 404, "not_found")


@pytest.mark.parametrize("path", [path for path, query in LOOK_UPS.items() if "designation" in query])
def test_a_designation_of_10_mb_is_refused(path: str, client: FlaskClient) -> None:
    found = problem(client.get(path, query_string={"designation": "M10-6g" * 1_700_000}), 422, "invalid")
    assert pointers(found) == ["/designation"]
    assert "200 characters" in found["detail"]
    assert len(json.dumps(found)) < 2000


@pytest.mark.parametrize("path", [path for path, query in LOOK_UPS.items() if "designation" in query])
@pytest.mark.parametrize("text", ["", " ", "\x00", "M10-6g\x00", "☃", "'; --", "M10-6g\r\nX-A: b", "../../etc", "%00"])
def test_nonsense_is_a_clients_mistake(path: str, text: str, client: FlaskClient) -> None:
    answer = client.get(path, query_string={"designation": text})
    assert answer.status_code in (404, 422)
    found = problem(answer, answer.status_code, answer.get_json(force=True)["code"])
    assert pointers(found) == ["/designation"]


def test_bytes_that_are_no_utf_8_are_a_clients_mistake(client: FlaskClient) -> None:
    answer = client.get("/v1/thread-limits?designation=M10-6g%ff%fe")
    assert answer.status_code in (400, 404, 422)
    assert answer.get_json(force=True)["code"]


@look_ups
def test_a_parameter_that_stands_twice_is_refused(path: str, query: dict[str, str], client: FlaskClient) -> None:
    """Which of the two was meant nobody can say; the first is never taken silently."""
    if not query:
        return
    name, value = next(iter(query.items()))
    answer = client.get(path, query_string=[*query.items(), (name, value)])
    found = problem(answer, 422, "repeated_member")
    assert found["detail"] == f"{name} stands 2 times; name it once"
    assert pointers(found) == [f"/{name}"]
