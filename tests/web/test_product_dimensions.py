"""GET /v1/product-dimensions. ISO 4014, 4017, 8765, 8676, 4032, 8673; cells in tests/published, here the form."""

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem


def ask(client: FlaskClient, **query: str) -> dict:  # type: ignore[type-arg]
    answer = client.get("/v1/product-dimensions", query_string=query)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict = answer.get_json()  # type: ignore[type-arg]
    return found


def sides(found: dict, id: str) -> tuple[float | None, float | None]:  # type: ignore[type-arg]
    return found["dimensions"][id]["min"], found["dimensions"][id]["max"]


def test_a_bolt(client: FlaskClient) -> None:
    """ISO 4014 M10x60, grade A: s 15.73 to 16.00, e from 17.77, k 6.22 to 6.58, l js15, b 26, ls 26.5, lg 34."""
    found = ask(client, standard="ISO 4014", size="M10", length="60")
    assert (found["standard"], found["product_grade"], found["unit"]) == ("ISO 4014", "A", "mm")
    assert sides(found, "width_across_flats") == (15.73, 16.0)
    assert sides(found, "width_across_corners") == (17.77, None)
    assert sides(found, "head_height") == (6.22, 6.58)
    assert sides(found, "body_diameter") == (9.78, 10.0)
    assert sides(found, "length") == (59.4, 60.6)
    assert found["dimensions"]["thread_length"]["nominal"] == 26
    assert sides(found, "thread_length") == (None, None)
    assert sides(found, "grip_length") == (None, 34)
    assert sides(found, "body_length") == (26.5, None)


def test_the_grade_follows_diameter_and_length(client: FlaskClient) -> None:
    """ISO 4014, scope: A for d <= 24, l <= 10 d and l <= 150; M6x65 is B with other widths."""
    grades = {
        ("M6", "60"): "A",
        ("M6", "65"): "B",
        ("M24", "150"): "A",
        ("M24", "160"): "B",
        ("M27", "100"): "B",
    }
    for (size, length), grade in grades.items():
        assert ask(client, standard="ISO 4014", size=size, length=length)["product_grade"] == grade
    short = ask(client, standard="ISO 4014", size="M6", length="60")
    long = ask(client, standard="ISO 4014", size="M6", length="65")
    assert sides(short, "width_across_flats") == (9.78, 10.0)
    assert sides(long, "width_across_flats") == (9.64, 10.0)


def test_a_screw_threaded_to_the_head_has_no_shank(client: FlaskClient) -> None:
    found = ask(client, standard="ISO 4017", size="M10", length="60")["dimensions"]
    assert not {"body_diameter", "thread_length", "body_length"} & set(found)
    assert found["unthreaded_length"]["max"] == 4.5


def test_a_nut_has_no_length(client: FlaskClient) -> None:
    found = ask(client, standard="ISO 4032", size="M10")
    assert found["length"] is None
    assert sides(found, "nut_height") == (8.04, 8.4)
    assert "length" not in found["dimensions"]


@pytest.mark.parametrize(
    ("length", "word"), [("61", "ISO 888"), ("62,5", "ISO 888"), ("400", "lies outside"), ("20", "plain shank")]
)
def test_an_unusual_length_is_answered_with_a_notice(length: str, word: str, client: FlaskClient) -> None:
    found = ask(client, standard="ISO 4014", size="M10", length=length)
    assert any(word in notice for notice in found["notices"])
    assert found["dimensions"]["length"]["min"] < float(length.replace(",", ".")) < found["dimensions"]["length"]["max"]


def test_a_preferred_length_needs_no_notice(client: FlaskClient) -> None:
    assert ask(client, standard="ISO 4014", size="M10", length="60")["notices"] == []


def test_a_display_unit(client: FlaskClient) -> None:
    found = ask(client, standard="ISO 4014", size="M10", length="60", unit="in")
    assert found["unit"] == found["dimensions"]["length"]["unit"] == "in"
    assert found["dimensions"]["length"]["nominal"] == pytest.approx(60 / 25.4, abs=1e-3)
    assert found["length"] == 60


@pytest.mark.parametrize(
    ("query", "status", "code", "pointer"),
    [
        ({"standard": "ISO 4015", "size": "M10", "length": "60"}, 404, "unknown_standard", "/standard"),
        ({"standard": "ISO 4014", "size": "M13", "length": "60"}, 404, "unknown_size", "/size"),
        ({"standard": "ISO 4014", "size": "M9", "length": "60"}, 404, "unknown_size", "/size"),
        ({"standard": "ISO 4014", "size": "M10x1.3", "length": "60"}, 404, "unknown_size", "/size"),
        ({"standard": "ISO 4014", "size": "M10-6g", "length": "60"}, 422, "not_understood", "/size"),
        ({"standard": "ISO 4014", "size": "M10"}, 422, "length_missing", "/length"),
        ({"standard": "ISO 4032", "size": "M10", "length": "60"}, 422, "no_length", "/length"),
        ({"standard": "ISO 4014", "size": "M10", "length": "-60"}, 422, "out_of_range", "/length"),
        ({"standard": "ISO 4014", "size": "M10", "length": "0"}, 422, "out_of_range", "/length"),
        ({"standard": "ISO 4014", "size": "M10", "length": "NaN"}, 422, "wrong_type", "/length"),
        ({"standard": "ISO 4014", "size": "M10", "length": "Infinity"}, 422, "wrong_type", "/length"),
        ({"standard": "ISO 4014", "size": "M10", "length": "sixty"}, 422, "wrong_type", "/length"),
        ({"standard": "ISO 4014", "size": "M10", "length": "1e2"}, 422, "wrong_type", "/length"),
        ({"standard": "ISO 4014", "size": "M10", "length": "5000"}, 422, "not_covered", "/length"),
        ({"standard": "ISO 4014", "size": "M10", "length": "60", "unit": "HV"}, 422, "unit_does_not_fit", "/unit"),
    ],
)
def test_what_cannot_be_answered(
    query: dict[str, str], status: int, code: str, pointer: str, client: FlaskClient
) -> None:
    found = problem(client.get("/v1/product-dimensions", query_string=query), status, code)
    assert pointers(found) == [pointer]


def test_an_unknown_size_names_what_the_standard_lists(client: FlaskClient) -> None:
    query = {"standard": "ISO 8765", "size": "M10", "length": "60"}
    found = problem(client.get("/v1/product-dimensions", query_string=query), 404, "unknown_size")
    assert set(found["nearest"]) >= {"M10x1", "M10x1.25"}


@pytest.mark.parametrize(
    ("query", "id", "expected"),
    [
        ({"standard": "ISO 4762", "size": "M10", "length": "60"}, "socket_width_across_flats", (8.025, 8.115)),
        ({"standard": "ISO 7089", "size": "10"}, "outer_diameter", (19.48, 20.0)),
        ({"standard": "DIN EN ISO 7089", "size": "M10"}, "inner_diameter", (10.5, 10.77)),
        ({"standard": "ISO 4033", "size": "M10"}, "nut_height", (8.94, 9.3)),
        ({"standard": "ISO 4016", "size": "M20", "length": "80"}, "body_diameter", (19.16, 20.84)),
        (
            {"standard": "asme b18.2.1 hex cap screw", "size": "1/2-13", "length": "2"},
            "width_across_flats",
            (0.736, 0.75),
        ),
        ({"standard": "ASME B18.2.1 hex bolt", "size": "1/2-13", "length": "1-1/2"}, "body_diameter", (0.482, 0.515)),
    ],
)
def test_other_families(client: FlaskClient, query: dict[str, str], id: str, expected: tuple[float, float]) -> None:
    """Cells of ISO 4762:2004, ISO 7089:2000, ISO 4033:2012, ISO 4016:2011 and ASME B18.2.1, each as printed."""
    assert sides(ask(client, **query), id) == expected


def test_an_inch_product_answers_in_inch(client: FlaskClient) -> None:
    """1/2-13 x 2 in: LT 1.25, so a grip of 0.75 in; shown in mm on request."""
    query = {"standard": "ASME B18.2.1 hex cap screw", "size": "1/2-13", "length": "2"}
    found = ask(client, **query)
    assert (found["unit"], found["product_grade"], found["thread_tolerance_class"]) == ("in", None, "2A")
    assert sides(found, "grip_length") == (None, 0.75)
    assert sides(ask(client, **query, unit="mm"), "width_across_flats") == (18.6944, 19.05)


def test_what_stands_beside_the_dimensions(client: FlaskClient) -> None:
    """ISO 273 medium hole of M12 is 13.5, not the 14 of the inch world; ISO 4753: chamfered end."""
    found = ask(client, standard="ISO 4014", size="M12", length="80")
    assert found["clearance_holes"]["medium"]["nominal"] == 13.5
    assert found["thread_end"]["symbol"] == "CH"
    assert found["mass_per_1000"]["unit"] == "kg"
    assert found["fully_threaded"] is False
    assert ask(client, standard="ISO 7040", size="M12")["mass_per_1000"] is None


def test_the_class_decides_the_thread_tolerance_of_socket_screws(client: FlaskClient) -> None:
    """ISO 4762:2004: 5g6g in 12.9, 6g else."""
    query = {"standard": "ISO 4762", "size": "M10", "length": "60"}
    assert ask(client, **query, property_class="12.9")["thread_tolerance_class"] == "5g6g"
    assert ask(client, **query, property_class="8.8")["thread_tolerance_class"] == "6g"


@pytest.mark.parametrize(
    ("query", "status", "code", "pointer"),
    [
        ({"standard": "ISO 4014", "size": "1/2-13", "length": "60"}, 422, "contradiction", "/size"),
        ({"standard": "ASME B18.2.1 hex cap screw", "size": "M10", "length": "2"}, 422, "contradiction", "/size"),
        ({"standard": "ASME B18.2.1", "size": "1/2-13", "length": "2"}, 404, "unknown_standard", "/standard"),
        ({"standard": "ISO 7089", "size": "10", "length": "20"}, 422, "no_length", "/length"),
        (
            {"standard": "ISO 7089", "size": "10", "property_class": "8.8"},
            404,
            "unknown_property_class",
            "/property_class",
        ),
        (
            {"standard": "ISO 4762", "size": "M10", "length": "60", "property_class": "8"},
            422,
            "contradiction",
            "/property_class",
        ),
        ({"standard": "ASME B18.2.1 hex bolt", "size": "1/2-13", "length": "1-1/3"}, 422, "not_understood", "/length"),
    ],
)
def test_wrong_families_are_told(
    client: FlaskClient, query: dict[str, str], status: int, code: str, pointer: str
) -> None:
    found = problem(client.get("/v1/product-dimensions", query_string=query), status, code)
    assert pointers(found) == [pointer]


@pytest.mark.parametrize("length", ["25", "26"])
def test_a_bolt_not_longer_than_its_thread_is_threaded_to_the_head(client: FlaskClient, length: str) -> None:
    """ISO 4014:2011 starts at l = 45 for M10 (b = 26): a shorter one is ISO 4017."""
    found = ask(client, standard="ISO 4014", size="M10", length=length)
    assert found["fully_threaded"]
    assert not {"body_diameter", "thread_length", "grip_length", "body_length"} & set(found["dimensions"])
    assert any("order ISO 4017" in notice for notice in found["notices"])
