"""GET /v1/products: every way through it ends in a designation that can be specified."""

from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem


def ask(client: FlaskClient, **query: str) -> dict[str, Any]:
    answer = client.get("/v1/products", query_string=query)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def values(found: dict[str, Any]) -> list[str]:
    return [one["value"] for one in found["choices"]["values"]]


def test_without_a_choice_all_products_are_listed(client: FlaskClient) -> None:
    found = ask(client)
    assert found["next"] == "standard"
    assert [one["product"] for one in found["products"]] == values(found)
    kinds = {one["product"]: (one["item"], one["thread"], one["unit"]) for one in found["products"]}
    assert kinds["ISO 4014"] == ("bolt or screw", "external", "mm")
    assert kinds["ISO 7089"] == ("washer", None, "mm")
    assert kinds["ASME B18.2.2 hex nut"] == ("nut", "internal", "in")


def test_a_bolt_step_by_step(client: FlaskClient) -> None:
    """ISO 4014, M10: lengths 45 to 100 of ISO 888; classes 5.6, 8.8, 9.8, 10.9 (from memory)."""
    chosen = {"standard": "ISO 4014"}
    assert "M10" in values(ask(client, **chosen))
    chosen["size"] = "M10"
    lengths = values(ask(client, **chosen))
    assert (lengths[0], lengths[-1]) == ("45", "100")
    chosen["length"] = "60"
    assert {"8.8", "10.9"} <= set(values(ask(client, **chosen)))
    chosen["property_class"] = "8.8"
    found = ask(client, **chosen)
    assert (found["designation"], found["complete"], found["next"]) == ("ISO 4014 - M10x60 - 8.8", True, "coating")
    chosen["coating"] = "none"
    found = ask(client, **chosen)
    assert (found["designation"], found["next"]) == ("ISO 4014 - M10x60 - 8.8", None)


def test_coatings_are_offered_where_the_thread_has_room(client: FlaskClient) -> None:
    """6g of M10 leaves 32 um of the pitch diameter: 5 um of zinc take 20, 8 um on a bolt of 6 d take 40."""
    found = ask(client, standard="ISO 4014", size="M10", length="60", property_class="8.8")
    assert "Fe/Zn5" in values(found)
    left_out = {one["value"]: one["note"] for one in found["choices"]["left_out"]}
    assert "leaves 32 um" in left_out["Fe/Zn8"]
    assert "tZn" in left_out
    coated = ask(client, standard="ISO 4014", size="M10", length="60", property_class="8.8", coating="Fe/Zn5")
    assert (coated["designation"], coated["next"]) == ("ISO 4014 - M10x60 - 8.8 - Fe/Zn5", None)


def test_stainless_steel_is_not_coated(client: FlaskClient) -> None:
    assert ask(client, standard="ISO 4014", size="M10", length="60", property_class="A2-70")["next"] is None


def test_nuts_and_washers_have_no_length(client: FlaskClient) -> None:
    assert ask(client, standard="ISO 4032", size="M10")["next"] == "property_class"
    washer = ask(client, standard="ISO 7089", size="10")
    assert (washer["designation"], values(washer)) == ("ISO 7089 - 10", ["200 HV", "300 HV"])


def test_inch_lengths_are_free(client: FlaskClient) -> None:
    found = ask(client, standard="ASME B18.2.1 hex cap screw", size="1/2-13")
    assert (found["next"], found["choices"]["free"], found["unit"]) == ("length", True, "in")
    found = ask(
        client, standard="ASME B18.2.1 hex cap screw", size="1/2-13", length="1 1/2", property_class="SAE J429 5"
    )
    assert found["designation"] == "ASME B18.2.1 hex cap screw - 1/2-13x1-1/2 - SAE J429 5"
    assert found["next"] is None


@pytest.mark.parametrize(
    "chosen",
    [
        {"standard": "ASME B18.2.2 hex jam nut", "size": "1/2-13"},
        {"standard": "ISO 4014", "size": "M42", "length": "200"},
        {"standard": "ISO 4032", "size": "M3"},
    ],
    ids=lambda chosen: f"{chosen['standard']} {chosen['size']}",
)
def test_a_class_without_loads_at_the_size_is_as_agreed(client: FlaskClient, chosen: dict[str, str]) -> None:
    """No proof load of inch jam nuts is held; ISO 898-1:2013 ends at M39, ISO 898-2:2012 starts at M5."""
    offered = ask(client, **chosen)["choices"]["values"]
    steel = [one for one in offered if not one["value"].startswith("A")] or offered
    assert {one["note"] for one in steel} == {"strength as agreed with the purchaser"}


@pytest.mark.parametrize(
    "standard", ["ISO 4017", "ISO 4762", "ISO 4162", "ISO 4026", "ISO 4161", "ISO 7092", "ISO 4034"]
)
def test_every_first_choice_leads_to_a_specification(client: FlaskClient, standard: str) -> None:
    chosen = {"standard": standard}
    while (found := ask(client, **chosen))["next"] != "coating" and found["next"] is not None:
        offered = values(found)
        chosen[found["next"]] = offered[len(offered) // 3]
    answer = client.get("/v1/specification", query_string={"designation": found["designation"]})
    assert (answer.status_code, answer.get_json()["designation"]) == (200, found["designation"])


@pytest.mark.parametrize(
    ("query", "status", "code", "pointer"),
    [
        ({"size": "M10"}, 422, "missing_member", "/standard"),
        ({"standard": "ISO 4014", "length": "60"}, 422, "missing_member", "/size"),
        ({"standard": "ISO 4014", "size": "M10", "property_class": "8.8"}, 422, "missing_member", "/length"),
        ({"standard": "ISO 9999"}, 404, "unknown_standard", "/standard"),
        ({"standard": "DIN 961", "size": "M10x1.25"}, 404, "former_standard", "/standard"),
        ({"standard": "ISO 4014", "size": "M9"}, 404, "unknown_size", "/size"),
        ({"standard": "ISO 4032", "size": "M10", "length": "20"}, 422, "no_length", "/length"),
        ({"standard": "ISO 4032", "size": "M10", "property_class": "8.8"}, 422, "contradiction", "/property_class"),
        (
            {"standard": "ISO 4032", "size": "M10", "property_class": "8", "coating": "gold"},
            422,
            "not_understood",
            "/coating",
        ),
        (
            {"standard": "ISO 4014", "size": "M20", "length": "100", "property_class": "9.8"},
            422,
            "not_standardised",
            "/property_class",
        ),
        ({"colour": "red"}, 422, "unknown_member", "/colour"),
    ],
)
def test_a_wrong_choice_is_told(
    client: FlaskClient, query: dict[str, str], status: int, code: str, pointer: str
) -> None:
    assert pointers(problem(client.get("/v1/products", query_string=query), status, code)) == [pointer]


def test_the_page_is_asked_for_by_accept(client: FlaskClient) -> None:
    page = client.get("/v1/products?standard=ISO%204014", headers={"Accept": "text/html"})
    assert page.mimetype == "text/html"
    assert '<select id="choice" name="size"' in page.get_data(as_text=True)
    assert client.get("/v1/products?standard=ISO%204014").mimetype == "application/json"
