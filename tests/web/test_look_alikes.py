"""GET /v1/look-alikes. Widths across flats of M10, M12, M14, M22: common practice, and each in one reproduction."""

import pytest
from flask.testing import FlaskClient
from problem_documents import problem

#: Former width, ISO width: known to every assembly shop (common practice).
FLATS = {"M10": (17, 16), "M12": (19, 18), "M14": (22, 21), "M22": (32, 34)}


def ask(client: FlaskClient, **query: str) -> dict:  # type: ignore[type-arg]
    answer = client.get("/v1/look-alikes", query_string=query)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict = answer.get_json()  # type: ignore[type-arg]
    return found


@pytest.mark.parametrize("size", FLATS)
@pytest.mark.parametrize(
    ("former", "partner"), [("DIN 933", "ISO 4017"), ("DIN 931", "ISO 4014"), ("DIN 601", "ISO 4016")]
)
def test_widths_across_flats_differ_at_four_sizes(client: FlaskClient, former: str, partner: str, size: str) -> None:
    found = ask(client, designation=f"{former} - {size}x80 - 8.8")["look_alikes"]
    assert [one["partner"] for one in found] == [partner]
    (difference,) = (one for one in found[0]["differences"] if one["symbol"] == "s")
    assert difference["dimension"] == "width_across_flats"
    assert (difference["former"]["value"], difference["partner"]["value"]) == FLATS[size]


def test_sizes_that_agree_have_no_difference_and_no_promise(client: FlaskClient) -> None:
    found = ask(client, designation="DIN 933 - M8x40 - 8.8")["look_alikes"][0]
    assert found["differences"] == []
    assert "does not prove them equal" in found["detail"]


def test_nuts_differ_in_height_too(client: FlaskClient) -> None:
    """M10: 8 mm against 8.40 mm of ISO 4032; fine threads have their own partner."""
    found = ask(client, designation="DIN 934 - M10 - 8")["look_alikes"][0]
    by_id = {one["dimension"]: one for one in found["differences"] if one["limit"] == "max"}
    assert (by_id["nut_height"]["former"]["value"], by_id["nut_height"]["partner"]["value"]) == (8, 8.4)
    assert ask(client, designation="DIN 934 - M10x1.25 - 8")["look_alikes"][0]["partner"] == "ISO 8673"


def test_washers_differ_above_m36_only(client: FlaskClient) -> None:
    """M42: hole 43 against 45, thickness 7 against 8; one reproduction."""
    found = ask(client, designation="DIN 125 - M42")["look_alikes"][0]
    values = {one["symbol"]: (one["former"]["value"], one["partner"]["value"]) for one in found["differences"]}
    assert values == {"d1": (43, 45), "h": (7, 8)}
    assert ask(client, designation="DIN 125 - M16")["look_alikes"][0]["differences"] == []


def test_asked_from_the_iso_side(client: FlaskClient) -> None:
    found = ask(client, designation="ISO 4032 - M12 - 8")
    assert found["size"] == "M12"
    assert [one["former_standard"] for one in found["look_alikes"]] == ["DIN 934"]
    assert ask(client, designation="ISO 4033 - M12 - 9")["look_alikes"] == []


def test_all_are_listed_where_none_is_named(client: FlaskClient) -> None:
    found = ask(client)["look_alikes"]
    assert {"DIN 931", "DIN 933", "DIN 934", "DIN 439", "DIN 125", "DIN 912", "DIN 7991"} <= {
        one["former_standard"] for one in found
    }
    assert all(one["differences"] or one["detail"] for one in found)


def test_a_former_designation_is_never_turned_into_the_iso_one(client: FlaskClient) -> None:
    for path, query in (
        ("/v1/specification", {"designation": "DIN 601 - M10x60 - 4.6"}),
        ("/v1/product-dimensions", {"standard": "DIN 601", "size": "M10", "length": "60"}),
    ):
        found = problem(client.get(path, query_string=query), 404, "former_standard")
        assert "ISO 4016" in found["detail"]
        assert "17 mm against 16.00 mm" in found["detail"]
    assert found["nearest"] == ["ISO 4016"]
    spoken = problem(
        client.get("/v1/specification", query_string={"designation": "din 601-M10 x 60-4.6"}), 404, "former_standard"
    )
    assert spoken["nearest"] == ["ISO 4016 - M10x60 - 4.6"]


def test_a_former_standard_that_is_held_answers_for_itself_and_says_what_replaced_it(client: FlaskClient) -> None:
    """M10: 17 mm across flats (five sources), 16 mm in ISO 4017."""
    answer = client.get("/v1/specification", query_string={"designation": "DIN 933 - M10x60 - 8.8"}).get_json()
    assert answer["designation"] == "DIN 933 - M10x60 - 8.8"
    assert answer["characteristics"]["width_across_flats"]["max"] == 17
    assert "ISO 4017:2014 replaced it. At M10 they differ: width across flats" in answer["notices"][0]
    found = ask(client, designation="DIN 933 - M10x60 - 8.8")["look_alikes"][0]
    assert (found["former_held"], found["partner_designation"]) == (True, "ISO 4017 - M10x60 - 8.8")


def test_an_adoption_of_an_iso_standard_is_not_a_former_standard(client: FlaskClient) -> None:
    answer = client.get("/v1/specification", query_string={"designation": "DIN EN ISO 4014 - M10x60 - 8.8"})
    assert answer.get_json()["designation"] == "ISO 4014 - M10x60 - 8.8"


def test_iso_7093_of_1983_is_not_iso_7093_1(client: FlaskClient) -> None:
    """M20: hole 22 against 21; one reproduction."""
    found = problem(
        client.get("/v1/specification", query_string={"designation": "ISO 7093 - 20 - 200 HV"}), 404, "former_standard"
    )
    assert "22 mm against 21.00 mm" in found["detail"]


@pytest.mark.parametrize(
    ("former", "partner", "checked"),
    [
        ("DIN 985", "ISO 10511", "two reproductions"),
        ("DIN 982", "ISO 7040", "two reproductions"),
        ("DIN 6921", "EN 1665", "one reproduction"),
        ("EN 1665", None, "one reproduction"),
        ("DIN 127", None, "one reproduction"),
        ("DIN 6914", "EN 14399-4", "two reproductions"),
        ("DIN 6926", "ISO 7043", "memory"),
    ],
)
def test_what_replaced_a_standard_is_said_with_how_it_is_known(
    client: FlaskClient, former: str, partner: str | None, checked: str
) -> None:
    """Heights of M8 decide: DIN 985 is 8 mm high, ISO 10511 6.76, DIN 982 and ISO 7040 9.5; foreword of EN 1665."""
    found = next(one for one in ask(client)["look_alikes"] if one["former_standard"] == former)
    assert (found["partner"], found["basis"]["checked"]) == (partner, checked)
    assert found["basis"]["standard"] == former


def test_a_partner_that_is_not_held_is_said_to_be_so(client: FlaskClient) -> None:
    found = next(one for one in ask(client)["look_alikes"] if one["former_standard"] == "DIN 603")
    assert (found["partner"], found["partner_held"], found["differences"]) == ("ISO 8677", False, [])
    assert "ISO 8677 replaced it (by one source), which is not held" in found["detail"]


def test_no_partner_is_given_without_a_basis(client: FlaskClient) -> None:
    for one in ask(client)["look_alikes"]:
        assert one["basis"]["checked"], one["former_standard"]
        assert ("note" in one["basis"]) is (one["basis"]["checked"] != "memory"), one["former_standard"]
