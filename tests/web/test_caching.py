"""Look-ups are remembered up to so many bytes, whatever is asked."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from flask import Flask, Response, request
from flask.testing import FlaskClient

from boltwright_server.web.http import caching

SIZE = caching.MOST_BYTES // 10


@pytest.fixture
def rendered() -> list[str]:
    return []


@pytest.fixture
def asking(rendered: list[str]) -> Iterator[FlaskClient]:
    app = Flask(__name__)

    @app.get("/answer")
    @caching.look_up
    def answer() -> Response:
        rendered.append(request.args["n"])
        return Response(b"x" * int(request.args.get("size", SIZE)), mimetype=caching.JSON)

    caching._rendered.cache_clear()
    yield app.test_client()
    caching._rendered.cache_clear()


def test_what_is_remembered_stays_below_its_bytes(asking: FlaskClient, rendered: list[str]) -> None:
    for n in range(30):
        assert len(asking.get(f"/answer?n={n}").data) == SIZE
    assert 8 * SIZE < caching._KEPT.currsize <= caching.MOST_BYTES
    assert len(rendered) == 30


def test_the_least_recently_asked_leaves_first(asking: FlaskClient, rendered: list[str]) -> None:
    for n in (0, 1, 2, 3, 0, 4, 5, 6, 7, 8, 0, 9, 0, 1):
        asking.get(f"/answer?n={n}")
    assert rendered == ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "1"]


def test_an_answer_larger_than_all_is_rendered_each_time(asking: FlaskClient, rendered: list[str]) -> None:
    for _ in range(2):
        assert len(asking.get(f"/answer?n=0&size={caching.MOST_BYTES + 1}").data) == caching.MOST_BYTES + 1
    assert rendered == ["0", "0"]
