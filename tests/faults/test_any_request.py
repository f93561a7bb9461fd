"""Whatever a request holds, it is answered or refused with the member at fault: never a fault of the service."""

import json
import random

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from .requests_at_random import BODIES, TEXTS, bodies, queries

OF_A_PATH, OF_A_BODY = 40, 100
#: Problems of the request as such: no member is at fault, or the place in a text says which.
WITHOUT_MEMBER = {"not_json", "bad_request", "not_found", "not_acceptable", "content_too_large", "uri_too_long"}


def test_any_query(client: FlaskClient) -> None:
    chance = random.Random(1)
    document = client.get("/openapi.json").json
    for path, item in document["paths"].items():
        parameters = [one for one in item.get("get", {}).get("parameters", ()) if one["in"] == "query"]
        for query in queries(chance, parameters, OF_A_PATH if parameters else 0):
            accept = chance.choice(("application/json", "text/html", "image/svg+xml"))
            check(client.get(path, query_string=query, headers={"Accept": accept}), f"{path} {query} {accept}")


def test_any_path_below_the_pages(client: FlaskClient) -> None:
    for text in TEXTS:
        for path in ("/docs/problems/", "/docs/findings/", "/v1/", "/"):
            assert client.get(path + text.replace("/", "%2F")).status_code in (200, 302, 404), path + text


@pytest.mark.parametrize("path", BODIES)
def test_any_body(path: str, client: FlaskClient) -> None:
    assert client.post(f"/v1/{path}", json=BODIES[path]).status_code == 200
    for body in bodies(random.Random(path), BODIES[path], OF_A_BODY):
        text = json.dumps(body)
        check(client.post(f"/v1/{path}", data=text, content_type="application/json"), f"{path} {text}")


def check(answer: TestResponse, asked: str) -> None:
    assert answer.status_code < 500, asked
    if answer.status_code < 400 or answer.mimetype == "text/html":
        return
    found = answer.get_json(force=True)
    assert found["detail"], asked
    assert answer.mimetype == "application/problem+json", asked
    if found["code"] not in WITHOUT_MEMBER:
        assert found["errors"], asked
        assert all(error["pointer"] for error in found["errors"]), (asked, found["detail"])
