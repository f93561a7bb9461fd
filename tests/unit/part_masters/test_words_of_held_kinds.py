"""Words for a kind of product that a standard is held of do not contradict that standard; beside another they do."""

import pytest
from flask.testing import FlaskClient

RIGHT = (
    "DIN 1587 CAP NUT M10 6",
    "HUTMUTTER DIN 1587 M10 6",
    "CASTLE NUT DIN 935-1 M12 8",
    "SQUARE NUT DIN 557 M8 5",
    "CARRIAGE BOLT DIN 603 M8x40 4.8",
    "SCHLOSSSCHRAUBE DIN 603 M8x40 4.8",
    "COUPLING NUT DIN 6334 M10",
)


@pytest.mark.parametrize("text", RIGHT)
def test_the_word_of_its_own_kind_contradicts_nothing(client: FlaskClient, text: str) -> None:
    """Titles of the standards; names of the trade (common practice)."""
    assert "words-contradict" not in _codes(client, text)


@pytest.mark.parametrize(
    "text", ["CAP NUT ISO 4032 M12 8", "CARRIAGE BOLT ISO 4014 M10x60 8.8", "DADO CIECO ISO 4032 M12 8"]
)
def test_the_word_of_another_kind_is_told(client: FlaskClient, text: str) -> None:
    assert "words-contradict" in _codes(client, text)


def _codes(client: FlaskClient, text: str) -> list[str]:
    body = {"part_masters": [{"part_number": "1", "description": text}]}
    row = client.post("/v1/part-masters/validation", json=body).get_json()["part_masters"][0]
    return [one["code"] for one in row["findings"]]
