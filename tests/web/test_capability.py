"""POST /v1/capability. The public piston ring data stand in tests/published/iso_7870_2_2013; here the form."""

from itertools import pairwise
from statistics import mean, stdev
from typing import Any

import pytest
from drawn import Drawing
from flask.testing import FlaskClient
from problem_documents import pointers, problem

VALUES = [9.9, 10.1, 10.0, 10.2, 9.8, 10.0, 10.1, 9.9, 10.0, 10.1, 9.9, 10.0]


def ask(client: FlaskClient, **body: Any) -> dict[str, Any]:
    answer = client.post("/v1/capability", json={"values": VALUES, **body})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def test_the_indices_are_their_definitions(client: FlaskClient) -> None:
    """Single values: within by the mean moving range over 1.128; overall by the standard deviation."""
    found = ask(client, min=9, max=11)
    moving = mean(abs(b - a) for a, b in pairwise(VALUES))
    within, overall = moving / 1.12838, stdev(VALUES)
    assert found["mean"] == pytest.approx(mean(VALUES))
    assert found["standard_deviation_within"] == pytest.approx(within, rel=1e-6)
    assert found["standard_deviation_overall"] == pytest.approx(overall)
    assert found["cp"]["value"] == pytest.approx(2 / (6 * within), rel=1e-6)
    assert found["cpk"]["value"] == pytest.approx(min(11 - mean(VALUES), mean(VALUES) - 9) / (3 * within), rel=1e-6)
    assert found["pp"]["value"] == pytest.approx(2 / (6 * overall))
    assert found["ppk"]["value"] == pytest.approx(min(11 - mean(VALUES), mean(VALUES) - 9) / (3 * overall))


@pytest.mark.parametrize("index", ["cp", "cpk", "pp", "ppk"])
def test_each_index_lies_in_its_interval(index: str, client: FlaskClient) -> None:
    narrow = ask(client, min=9, max=11, confidence_level=0.5)[index]
    wide = ask(client, min=9, max=11)[index]
    low, high = wide["confidence_interval"]
    assert low < narrow["confidence_interval"][0] < wide["value"] < narrow["confidence_interval"][1] < high


def test_subgroups_up_to_10_go_by_the_range_and_above_by_the_standard_deviation(client: FlaskClient) -> None:
    groups = [VALUES[at : at + 3] for at in range(0, 12, 3)]
    by_range = ask(client, min=9, max=11, subgroup_size=3)
    assert by_range["standard_deviation_within"] == pytest.approx(
        mean(max(group) - min(group) for group in groups) / 1.69257, rel=1e-5
    )
    assert ask(client, min=9, max=11, subgroup_size=12)["standard_deviation_within"] == pytest.approx(
        stdev(VALUES) / 0.97756, rel=1e-4
    )


def test_a_short_last_subgroup_is_left_out_of_within_and_said(client: FlaskClient) -> None:
    whole = ask(client, min=9, max=11, subgroup_size=4)
    short = ask(client, values=[*VALUES, 12.0], min=9, max=11, subgroup_size=4)
    assert short["standard_deviation_within"] == whole["standard_deviation_within"]
    assert short["standard_deviation_overall"] > whole["standard_deviation_overall"]
    assert any("last 1" in notice for notice in short["notices"])


def test_with_one_limit_cp_and_pp_are_null(client: FlaskClient) -> None:
    found = ask(client, min=9)
    assert (found["cp"], found["pp"]) == (None, None)
    assert found["cpk"]["value"] > 0
    assert found["ppk"]["value"] > 0


def test_without_spread_the_indices_are_null_and_it_is_said(client: FlaskClient) -> None:
    found = ask(client, values=[0.1] * 12, min=0, max=1)
    assert [found[index] for index in ("cp", "cpk", "pp", "ppk")] == [None] * 4
    assert any("no spread" in notice for notice in found["notices"])


def test_limits_of_a_characteristic(client: FlaskClient) -> None:
    of = {"designation": "ISO 4014 - M10x60 - 8.8", "characteristic": "width_across_flats"}
    values = [15.8, 15.82, 15.85, 15.81, 15.84]
    named = ask(client, values=values, **of)
    assert named["ppk"] == ask(client, values=values, min=15.73, max=16.0)["ppk"]
    micrometres = ask(client, values=[value * 1000 for value in values], unit="um", **of)
    assert micrometres["ppk"]["value"] == pytest.approx(named["ppk"]["value"])


def test_values_that_depart_from_the_normal_distribution_are_said_to(client: FlaskClient) -> None:
    """Invented: run-outs, most small and a few great."""
    skewed = [0.01 * 1.35**at for at in range(20)]
    found = ask(client, values=skewed, max=5)
    fit = found["distribution"]["fit"]
    assert (fit["test"], fit["rejected"], fit["basis"]["checked"]) == ("Anderson-Darling", True, "memory")
    assert fit["p_value"] < fit["significance"] == 0.05
    assert any("depart from a normal distribution" in notice for notice in found["notices"])
    tamed = ask(client, values=skewed, max=5, distribution="log-normal")
    assert tamed["distribution"]["fit"]["rejected"] is False
    assert (tamed["cp"], tamed["cpk"], tamed["pp"]) == (None, None, None)
    assert tamed["ppk"]["value"] < found["ppk"]["value"]


def test_the_normal_distribution_has_its_percentiles_three_deviations_from_the_mean(client: FlaskClient) -> None:
    found = ask(client, min=9, max=11)
    distribution = found["distribution"]
    reach = 3 * found["standard_deviation_overall"]
    assert distribution["percentiles"]["lower"] == pytest.approx(found["mean"] - reach)
    assert distribution["percentiles"]["median"] == found["mean"]
    assert distribution["fit"]["rejected"] is False


def test_coarse_readings_are_not_blamed_on_the_process(client: FlaskClient) -> None:
    values = [10.0, 10.1] * 40 + [9.9, 10.2] * 5
    notices = ask(client, values=values, min=9, max=11)["notices"]
    assert any("coarse steps of 0.1" in notice for notice in notices)


def test_what_is_expected_beyond_the_limits(client: FlaskClient) -> None:
    """By the normal distribution of all values: a mean on a limit leaves one half beyond it."""
    mean = sum(VALUES) / len(VALUES)
    found = ask(client, min=9, max=mean)["expected_nonconforming"]
    assert found["above_max"] == pytest.approx(0.5)
    assert 0 < found["below_min"] < 1e-6
    assert ask(client, min=9)["expected_nonconforming"]["above_max"] is None
    assert ask(client, values=[0.1] * 12, min=0)["expected_nonconforming"] == {"below_min": None, "above_max": None}


def test_few_values_are_not_tested(client: FlaskClient) -> None:
    found = ask(client, values=VALUES[:7], min=9, max=11)
    assert found["distribution"]["fit"] is None
    assert any("from 8 values on" in notice for notice in found["notices"])


def test_a_process_out_of_control_has_no_capability_and_that_is_said(client: FlaskClient) -> None:
    """Common practice: Cpk of subgroups outside their control limits is void, Ppk describes the values."""
    shifted = [*[10.0, 10.1, 9.9] * 5, *[10.8, 10.9, 10.7] * 5]
    calm = [10.0, 10.1, 9.9] * 10
    for values, out in ((shifted, True), (calm, False)):
        notices = ask(client, values=values, max=12, subgroup_size=3)["notices"]
        assert any("no stable process" in notice for notice in notices) is out


def test_percentiles_of_the_values_themselves(client: FlaskClient) -> None:
    found = ask(client, values=[10 + at / 1000 for at in range(1000)], max=12, distribution="empirical")
    assert found["ppk"]["confidence_interval"] == [None, None]
    median, upper = 10.4995, 10 + 0.99865 * 1001 / 1000 - 0.001
    assert found["ppk"]["value"] == pytest.approx((12 - median) / (upper - median), rel=1e-6)


def test_the_histogram_with_the_indices(client: FlaskClient) -> None:
    body = {"values": VALUES, "min": 9, "max": 11, "unit": "mm", "acceptance_min": 9.1, "title": "Head height"}
    answer = client.post("/v1/capability", json=body, headers={"Accept": "image/svg+xml"})
    assert answer.content_type.startswith("image/svg+xml")
    drawn = Drawing(answer.get_data(as_text=True))
    assert (drawn.clashes(), drawn.outside()) == ([], [])
    found = ask(client, min=9, max=11)
    said = drawn.lettering()
    assert "limits: 9 to 11 mm" in said
    assert "acceptance limits: at least 9.1 mm" in said
    assert f"Cpk {found['cpk']['value']:.2f}" in said
    assert "Head height" in said


def test_json_is_the_answer_unless_a_drawing_is_preferred(client: FlaskClient) -> None:
    body = {"values": VALUES, "min": 9}
    for accept in ("*/*", "application/json", "application/json, image/svg+xml;q=0.5", "text/html"):
        assert client.post("/v1/capability", json=body, headers={"Accept": accept}).is_json, accept


@pytest.mark.parametrize(
    ("body", "code", "pointer"),
    [
        ({"min": 11, "max": 9}, "contradiction", "/min"),
        ({}, "missing_member", "/min"),
        ({"values": [10.0], "min": 9}, "out_of_range", "/values"),
        ({"values": [10.0, "10.1"], "min": 9}, "wrong_type", "/values/1"),
        ({"values": [10.0, None], "min": 9}, "wrong_type", "/values/1"),
        ({"values": [10.0, True], "min": 9}, "wrong_type", "/values/1"),
        ({"values": 10, "min": 9}, "wrong_type", "/values"),
        ({"min": "9"}, "wrong_type", "/min"),
        ({"min": 9, "subgroup_size": 26}, "out_of_range", "/subgroup_size"),
        ({"min": 9, "subgroup_size": 2.5}, "wrong_type", "/subgroup_size"),
        ({"min": 9, "confidence_level": 1}, "invalid", "/confidence_level"),
        ({"min": 9, "distribution": "uniform"}, "invalid", "/distribution"),
        ({"min": 9, "values": [0.0, 1.0, 2.0], "distribution": "weibull"}, "out_of_range", "/distribution"),
        ({"values": [1e300, 1.0], "min": 9}, "out_of_range", "/values/0"),
        ({"min": 9, "sigma": 3}, "unknown_member", "/sigma"),
        ({"characteristic": "length"}, "missing_member", "/designation"),
        ({"designation": "ISO 4014 - M10x60 - 8.8"}, "missing_member", "/characteristic"),
        (
            {"designation": "ISO 4014 - M10x60 - 8.8", "characteristic": "marking"},
            "unknown_characteristic",
            "/characteristic",
        ),
        (
            {"designation": "ISO 4014 - M10x60 - 8.8", "characteristic": "length", "unit": "N"},
            "unit_does_not_fit",
            "/unit",
        ),
    ],
)
def test_what_cannot_be_answered(body: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    answer = client.post("/v1/capability", json={"values": VALUES, **body})
    assert pointers(problem(answer, 422, code)) == [pointer]
