"""GET /v1/thread-limits. Numbers: ISO 965-1:2013 as tests/published/iso_965_1_2013 has them from printed tables."""

from decimal import Decimal

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

MEMBERS = {
    "designation",
    "system",
    "member",
    "nominal_diameter",
    "pitch",
    "series",
    "tolerance_class",
    "unit",
    "limits",
    "fingerprint",
}


def ask(client: FlaskClient, designation: str, **query: str):  # type: ignore[no-untyped-def]
    return client.get("/v1/thread-limits", query_string={"designation": designation, **query})


def test_an_external_thread(client: FlaskClient) -> None:
    found = ask(client, "M10-6g").get_json()
    assert set(found) >= MEMBERS
    assert (found["designation"], found["member"], found["series"]) == ("M10-6g", "external", "coarse")
    assert (found["nominal_diameter"], found["pitch"], found["unit"]) == (10, 1.5, "mm")
    limits = found["limits"]
    assert (limits["major_diameter"]["min"], limits["major_diameter"]["max"]) == (9.732, 9.968)
    assert (limits["pitch_diameter"]["min"], limits["pitch_diameter"]["max"]) == (8.862, 8.994)
    assert limits["pitch_diameter"]["nominal"] == 9.026
    assert (limits["minor_diameter"]["min"], limits["minor_diameter"]["max"]) == (None, 8.344)
    assert limits["root_diameter"]["min"] == 7.938
    assert limits["pitch_diameter"]["basis"]["standard"] == "ISO 965-1"


def test_an_internal_thread_has_no_greatest_major_diameter(client: FlaskClient) -> None:
    """M16-6H: ISO 965-2 prints D2 14.701 to 14.913 and D1 13.835 to 14.210."""
    limits = ask(client, "M16-6H").get_json()["limits"]
    assert (limits["major_diameter"]["min"], limits["major_diameter"]["max"]) == (16, None)
    assert (limits["pitch_diameter"]["min"], limits["pitch_diameter"]["max"]) == (14.701, 14.913)
    assert (limits["minor_diameter"]["min"], limits["minor_diameter"]["max"]) == (13.835, 14.21)


def test_a_fit_has_both_members(client: FlaskClient) -> None:
    found = ask(client, "M10-6H/6g").get_json()
    assert found["designation"] == "M10-6H/6g"
    assert found["internal"]["limits"] == ask(client, "M10-6H").get_json()["limits"]
    assert found["external"]["limits"] == ask(client, "M10-6g").get_json()["limits"]


@pytest.mark.parametrize("text", ["M10x1.5-6g", "M10×1,5 - 6g", "m10-6g", "M 10 6g", "M10 X 1.5-6g"])
def test_forgiven_spellings(text: str, client: FlaskClient) -> None:
    assert ask(client, text).get_json() == ask(client, "M10-6g").get_json()


def test_hand_and_engagement_stay_in_the_designation(client: FlaskClient) -> None:
    found = ask(client, "M10-6g-L-LH").get_json()
    assert (found["designation"], found["left_hand"], found["engagement_group"]) == ("M10-6g-L-LH", True, "L")
    assert found["limits"] == ask(client, "M10-6g").get_json()["limits"]
    assert found["engagement"]["normal"]["max"] == 15


def test_numbers_print_with_the_decimals_of_their_standard(client: FlaskClient) -> None:
    body = ask(client, "M16-6H").get_data(as_text=True)
    assert '"max":14.210' in body
    assert '"min":16.000' in body


def test_a_display_unit_converts_what_is_shown_and_nothing_else(client: FlaskClient) -> None:
    millimetres, inches = ask(client, "M10-6g").get_json(), ask(client, "M10-6g", unit="in").get_json()
    micrometres = ask(client, "M10-6g", unit="um").get_json()
    assert inches["unit"] == "in"
    for name, bounds in millimetres["limits"].items():
        for side in ("min", "max", "nominal"):
            shown = inches["limits"][name][side]
            assert inches["limits"][name]["unit"] == "in"
            if bounds[side] is None:
                assert shown is None
            else:
                assert abs(shown * 25.4 - bounds[side]) < 0.0005
                assert micrometres["limits"][name][side] == pytest.approx(bounds[side] * 1000, abs=1e-9)
        assert inches["limits"][name]["basis"] == bounds["basis"]


@pytest.mark.parametrize(("unit", "code"), [("HV", "unit_does_not_fit"), ("N", "unit_does_not_fit")])
def test_a_unit_that_does_not_fit(unit: str, code: str, client: FlaskClient) -> None:
    found = problem(ask(client, "M10-6g", unit=unit), 422, code)
    assert "mm" in found["detail"]
    assert pointers(found) == ["/unit"]


def test_an_unknown_unit_is_named_with_the_known_ones(client: FlaskClient) -> None:
    found = problem(ask(client, "M10-6g", unit="inch"), 422, "invalid")
    assert "mm, um, in" in found["detail"]
    assert pointers(found) == ["/unit"]


@pytest.mark.parametrize(
    ("text", "status", "code", "nearest"),
    [
        ("M10x1.3-6g", 404, "unknown_size", "M10x1.25"),
        ("M13-6g", 404, "unknown_size", "M12"),
        ("M400-6g", 404, "unknown_size", "M300"),
        ("M1-6H", 422, "not_standardised", None),
        ("M1.4-7H", 422, "not_standardised", None),
        ("M2.5-6e", 422, "not_standardised", None),
        ("M10-6z", 404, "unknown_tolerance_class", "6"),
        ("M10-0g", 404, "unknown_tolerance_class", "4g"),
        ("M10", 422, "class_missing", "M10-6g"),
        ("M10x1.25-LH", 422, "class_missing", "M10x1.25-6H-LH"),
        (".250-20", 422, "class_missing", "1/4-20 UNC-2A"),
        ("M10-6H6g", 422, "not_understood", None),
        ("ISO 4014 - M10x60 - 8.8", 422, "not_understood", None),
        ("M-10-6g", 422, "not_understood", None),
    ],
)
def test_what_cannot_be_answered(text: str, status: int, code: str, nearest: str | None, client: FlaskClient) -> None:
    found = problem(ask(client, text), status, code)
    assert pointers(found) == ["/designation"]
    if nearest is not None:
        assert any(name.startswith(nearest) for name in found["nearest"])


def test_a_refusal_says_where_and_what_instead(client: FlaskClient) -> None:
    """Of a text that the grammar refuses, and of one whose meaning is refused."""
    (unread,) = problem(ask(client, "M10-6g ?"), 422, "not_understood")["errors"]
    assert unread["position"] == 7
    assert unread["expected"] == ["-", "/", "LH"]
    (unknown,) = problem(ask(client, " M13-6g"), 404, "unknown_size")["errors"]
    assert unknown["position"] == 2


def test_an_empty_cell_is_never_extrapolated(client: FlaskClient) -> None:
    found = problem(ask(client, "M1-6H"), 422, "not_standardised")
    assert "ISO 965-1:2013" in found["detail"]
    assert "P" in found["detail"] or "pitch" in found["detail"]


def test_decimals_survive_the_wire(client: FlaskClient) -> None:
    """JSON numbers read back as the decimals of the table: 8.994 is 8.994 and not 8.993999."""
    import json

    found = json.loads(ask(client, "M10-6g").get_data(), parse_float=Decimal)
    assert found["limits"]["pitch_diameter"]["max"] == Decimal("8.994")
