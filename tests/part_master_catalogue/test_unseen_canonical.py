"""What the configurator completes, the part masters read as itself: as designation, as description, in members.

Every product, its first, middle and last size, length and coating, every class, and classes that are had by agreement.
The texts are the service's own
(`/v1/products`); what is tested is that two of its resources never read one text in two ways.
"""

from collections.abc import Iterator
from typing import Any

import pytest
from flask.testing import FlaskClient

PATH = "/v1/part-masters/validation"
UNLISTED = ("8.8S", "10.9S", "12.9U", "8.8U - tZn", "10.9U - tZn", "8Z - tZn", "10X - tZn", "A1-50", "A3-80", "A5-70")
UNLISTED += (
    "C1-70",
    "C3-80",
    "C4-50",
    "F1-60",
    "ASTM F568M 4.6",
    "ASTM F568M 8.8",
    "ASTM F568M 9.8",
    "ASTM F568M 10.9",
)
UNLISTED += ("ASTM F568M 8.8.3", "ASTM F568M 12.9", "ASTM A193 B7", "SAE J429 8", "4.8", "5.8", "6.8", "9.8", "12.9")


def asked(client: FlaskClient, **chosen: str) -> dict[str, Any]:
    answer = client.get("/v1/products", query_string=chosen)
    assert answer.status_code == 200, answer.text[:300]
    return dict(answer.get_json())


def values(answer: dict[str, Any]) -> list[str]:
    return [one["value"] for one in answer["choices"]["values"]]


def some(step: str, answer: dict[str, Any]) -> list[str]:
    """First, middle, last; where no list of lengths is held, two that are no pitch: M16x2 says no length."""
    if answer["choices"]["free"]:
        return ["30", "60"] if answer["unit"] == "mm" else ["2", "3"]
    found = [one for one in values(answer) if one != "none" and (step != "length" or float(one) > 6)]
    return sorted({found[0], found[len(found) // 2], found[-1]}) if found else []


def completed(client: FlaskClient, **chosen: str) -> Iterator[dict[str, Any]]:
    """Every way to complete what has been chosen: the choices, and the designation that they come to."""
    answer = asked(client, **chosen)
    step = answer["next"]
    if answer["complete"]:
        yield {**chosen, "designation": answer["designation"]}
    if step in ("size", "length", "coating"):
        follow = some(step, answer)
    else:
        follow = [one for one in values(answer) if one != "none"] if step else []
    for value in follow:
        yield from completed(client, **chosen, **{step: value})


@pytest.fixture(scope="module")
def every_way(application: Any) -> list[dict[str, Any]]:
    client = application.test_client()
    products = [one["product"] for one in client.get("/v1/products").get_json()["products"]]
    return [way for product in products for way in completed(client, standard=product)]


def by_agreement(client: FlaskClient, every_way: list[dict[str, Any]]) -> list[str]:
    """Classes outside the lists, where the specification takes them and writes them so."""
    wholes = {way["standard"]: way["designation"] for way in every_way if "coating" not in way and "M" in way["size"]}
    tried = [f"{whole.rpartition(' - ')[0]} - {one}" for whole in wholes.values() for one in UNLISTED]
    answers = [client.get("/v1/specification", query_string={"designation": text}) for text in tried]
    return [t for t, a in zip(tried, answers, strict=True) if a.status_code == 200 and a.get_json()["designation"] == t]


def read(client: FlaskClient, rows: list[dict[str, str]]) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = []
    for at in range(0, len(rows), 500):
        answer = client.post(PATH, json={"part_masters": rows[at : at + 500]})
        assert answer.status_code == 200, answer.text[:300]
        found += answer.get_json()["part_masters"]
    return found


def test_there_are_enough_ways(every_way: list[dict[str, Any]]) -> None:
    assert len(every_way) > 1000
    assert len({way["standard"] for way in every_way}) > 35


@pytest.mark.parametrize("member", ["designation", "description"])
def test_a_complete_designation_is_read_as_itself(
    client: FlaskClient, every_way: list[dict[str, Any]], member: str
) -> None:
    texts = [*(way["designation"] for way in every_way), *by_agreement(client, every_way)]
    found = read(client, [{"part_number": str(number), member: text} for number, text in enumerate(texts)])
    other = [
        f"{text} -> {one['designation']}" for text, one in zip(texts, found, strict=True) if text != one["designation"]
    ]
    assert not other, f"{len(other)} of {len(texts)}\n" + "\n".join(other[:60])


def test_its_members_one_by_one_are_read_as_itself(client: FlaskClient, every_way: list[dict[str, Any]]) -> None:
    rows = [members(way, number) for number, way in enumerate(every_way)]
    found = read(client, rows)
    texts = [way["designation"] for way in every_way]
    other = [
        f"{text} -> {one['designation']}" for text, one in zip(texts, found, strict=True) if text != one["designation"]
    ]
    assert not other, f"{len(other)} of {len(texts)}\n" + "\n".join(other[:60])


def members(way: dict[str, Any], number: int) -> dict[str, str]:
    names = {"standard": "standard", "size": "thread", "length": "length", "property_class": "property_class"}
    row = {member: str(way[name]) for name, member in names.items() if name in way}
    if not row["standard"].startswith(("ISO", "ASME")):
        row["description"] = row.pop("standard")  # No standard: the word for the product.
    return {"part_number": str(number), **row, **({"coating": way["coating"]} if "coating" in way else {})}


def test_what_is_complete_and_listed_has_no_error(client: FlaskClient, every_way: list[dict[str, Any]]) -> None:
    """The configurator offers no part that the part masters call wrong."""
    rows = [{"part_number": str(number), "designation": way["designation"]} for number, way in enumerate(every_way)]
    wrong = [
        f"{row['designation']}: {sorted(one['code'] for one in told['findings'] if one['severity'] == 'error')}"
        for row, told in zip(rows, read(client, rows), strict=True)
        if told["status"] in ("invalid", "unreadable")
    ]
    assert not wrong, f"{len(wrong)} of {len(rows)}\n" + "\n".join(wrong[:40])
