"""GET /v1/standards: what is held, in which edition, and how each table was checked."""

import pytest
from flask.testing import FlaskClient

from boltwright_server.quantities import CHECKED_WORDS
from boltwright_server.standards import REGISTRY


@pytest.fixture
def standards(client: FlaskClient) -> list[dict]:  # type: ignore[type-arg]
    found: list[dict] = client.get("/v1/standards").get_json()["standards"]  # type: ignore[type-arg]
    return found


def test_every_standard_is_listed_with_its_tables(standards: list[dict]) -> None:  # type: ignore[type-arg]
    assert len(standards) == len(REGISTRY)
    for one in standards:
        assert one["id"]
        assert one["title"]
        assert one["edition"]
        for table in one["tables"]:
            assert table["checked"] in CHECKED_WORDS
            assert table["rows"] > 0
            assert sum(table["cells_by_check"].values()) >= 0
            assert set(table["cells_by_check"]) <= set(CHECKED_WORDS)


def test_doubtful_tables_are_not_hidden(standards: list[dict]) -> None:  # type: ignore[type-arg]
    """The wedge angles of ISO 898-1 are from memory; the Brinell limits are in conflict."""
    bolts = next(one for one in standards if one["id"] == "ISO 898-1")
    tables = {table["file"]: table for table in bolts["tables"]}
    assert tables["wedge_angle.csv"]["checked"] == "memory"
    assert tables["table_3_brinell.csv"]["cells_by_check"].get("conflict", 0) > 0


def test_one_edition_of_each_is_current(standards: list[dict]) -> None:  # type: ignore[type-arg]
    for id in {one["id"] for one in standards}:
        assert sum(one["current"] for one in standards if one["id"] == id) == 1


def test_the_edition_in_force_is_named_beside_the_one_held(standards: list[dict]) -> None:  # type: ignore[type-arg]
    """ISO 7040:2025 is in public catalogues, twice; the figures are those of 2012."""
    nuts = next(one for one in standards if one["id"] == "ISO 7040")
    assert nuts["edition"] == "2012"
    assert (nuts["in_force"]["edition"], nuts["in_force"]["checked"]) == ("2025", "two reproductions")
    rods = next(one for one in standards if one["id"] == "threaded rod")
    assert rods["in_force"] is None
