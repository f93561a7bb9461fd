"""GET and POST /v1/set-points: figures by station, what is missing, what is refused."""

import json
import math
from decimal import Decimal
from typing import Any

import pytest
from flask.testing import FlaskClient
from problem_documents import pointers, problem

BOLT = "ISO 4014 - M10x60 - 8.8"
WHOLE = {
    "designation": BOLT,
    "wire_diameter": 9.6,
    "head_trim": 0,
    "elongation": 0,
    "aims": {"thread_length": 26, "washer_face_thickness": 0},
    "tools": {"chamfer_circle": 15.2},
    "roller": {"pitch_diameter_spread": 0.002},
}
NUT = {
    "designation": "ISO 4032 - M16 - 8",
    "wire_diameter": 20,
    "forging_loss": 0.02,
    "aims": {"tapping_bore": 13.95, "width_across_flats": 24, "nut_height": 14.8},
    "tools": {
        "chamfer_circle": 22.8,
        "countersink_diameter": 17.3,
        "countersink_angle": 120,
        "pierce_diameter": 13.5,
        "web": 3,
    },
}


def post(client: FlaskClient, **body: Any) -> dict[str, Any]:
    answer = client.post("/v1/set-points", json=body)
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = json.loads(answer.data, parse_float=Decimal, parse_int=Decimal)
    return found


def points(found: dict[str, Any], station: str) -> dict[str, Any]:
    held: dict[str, Any] = {one["id"]: one for one in found["stations"]}[station]["set_points"]
    return held


def needs(found: dict[str, Any]) -> set[str]:
    return {f"{one['station']}.{one['set_point']}: {one['member']}" for one in found["needs"]}


def test_final_limits_by_station(client: FlaskClient) -> None:
    """ISO 4014:2011, Table 1, M10: s 15.73 to 16.00; ISO 965-2, M10-6g: d2 8.862 to 8.994; ISO 898-1, 8.8."""
    found = client.get("/v1/set-points", query_string={"designation": BOLT}).get_json()
    assert [one["id"] for one in found["stations"]] == [
        "cut_off",
        "heading",
        "extrusion",
        "thread_rolling",
        "hardening",
    ]
    assert [one["state"] for one in found["stations"]] == ["cut", "headed", "extruded", "rolled", "hardened"]
    s = points(found, "heading")["width_across_flats"]
    assert (s["min"], s["warning_min"], s["target"], s["warning_max"], s["max"]) == (15.73, 15.798, 15.865, 15.932, 16)
    assert points(found, "thread_rolling")["thread_pitch_diameter"]["max"] == 8.994
    assert points(found, "hardening")["tempering_temperature"]["min"] == 425
    assert points(found, "hardening")["tempering_temperature"]["max"] is None
    assert "heading: final limits; shift of the state unknown" in found["notices"]
    assert "cut_off.blank_volume: tools.chamfer_circle" in needs(found)
    assert "cut_off.blank_volume: aims.thread_length" in needs(found)
    assert "cut_off.cut_off_length: wire_diameter" in needs(found)
    assert points(found, "cut_off") == {}


def test_the_volume_of_a_bolt(client: FlaskClient) -> None:
    """Head by the closed form, shank at ds, thread at its blank: summed by hand."""
    found = post(client, **WHOLE)
    s, q, k, dc, tan30 = 15.865, 15.865 / 2, 6.4, 15.2, math.tan(math.pi / 6)
    chamfer = (
        12
        * tan30
        * ((2 / 3 + math.log(3) / 2) / 2 * q**3 / 3 - tan30 * dc / 2 * q**2 / 2 + (dc / 2) ** 3 * math.pi / 36)
    )
    head = math.sqrt(3) / 2 * s * s * k - chamfer
    volume = head + math.pi / 4 * (9.89**2 * 34 + 8.966951**2 * 26)
    cut = points(found, "cut_off")
    assert float(cut["blank_volume"]["exact"]["target"]) == pytest.approx(volume, rel=1e-7)
    length = volume / (math.pi / 4 * 9.6**2)
    assert float(cut["cut_off_length"]["exact"]["target"]) == pytest.approx(length, rel=1e-7)
    assert float(cut["blank_mass"]["exact"]["target"]) == pytest.approx(volume * 7.85e-3, rel=1e-7)
    upset = head / (math.pi / 4 * 9.6**2) / 9.6
    assert float(points(found, "heading")["upset_ratio"]["exact"]["target"]) == pytest.approx(upset, rel=1e-7)
    assert points(found, "heading")["blows"]["target"] == 1
    reduction = 1 - (8.966951 / 9.6) ** 2
    exact = points(found, "extrusion")["extrusion_reduction"]["exact"]["target"]
    assert float(exact) == pytest.approx(reduction, rel=1e-6)
    assert found["needs"] == []


def test_the_trim_belongs_to_the_head_and_elongation_to_no_volume(client: FlaskClient) -> None:
    plain = points(post(client, **WHOLE), "cut_off")["blank_volume"]["exact"]["target"]
    long = points(post(client, **{**WHOLE, "elongation": 0.005}), "cut_off")["blank_volume"]["exact"]["target"]
    trimmed = post(client, **{**WHOLE, "head_trim": 0.1})
    assert float(long) == pytest.approx(float(plain), rel=1e-9)
    head = float(points(post(client, **WHOLE), "heading")["upset_ratio"]["exact"]["target"]) * math.pi / 4 * 9.6**3
    more = float(points(trimmed, "cut_off")["blank_volume"]["exact"]["target"] - plain)
    assert more == pytest.approx(0.1 * head, rel=1e-9)


@pytest.mark.parametrize(
    ("designation", "aims", "tools", "volume"),
    [
        (
            "ISO 4762 - M8x30 - 12.9",
            {"head_diameter": 12.9, "head_height": 7.9, "socket_depth": 4.2, "socket_width_across_flats": 6.05},
            {"drill_diameter": 6, "head_chamfer": 0.8},
            math.pi / 4 * 12.9**2 * 7.9
            - (math.pi / 4 * 12.9**2 * 0.8 - math.pi * 0.8 / 12 * (12.9**2 + 12.9 * 11.3 + 11.3**2))
            - math.sqrt(3) / 2 * 6.05**2 * 4.2
            - math.pi / 24 * 216 / math.tan(math.pi / 3),
        ),
        (
            "ISO 7380-1 - M8x30 - 10.9",
            {"head_diameter": 14, "head_height": 4.4, "socket_depth": 2.8, "socket_width_across_flats": 5.05},
            {"drill_diameter": 0, "head_rim": 0.3, "head_flat": 4},
            423.60241 - math.sqrt(3) / 2 * 5.05**2 * 2.8,
        ),
        (
            "ISO 10642 - M8x30 - 10.9",
            {"head_diameter": 16.4, "body_diameter": 8, "socket_depth": 3.2, "socket_width_across_flats": 5.05},
            {"drill_diameter": 0, "head_rim": 0.76},
            670.9135 - math.sqrt(3) / 2 * 5.05**2 * 3.2,
        ),
        (
            "ISO 4162 - M10x40 - 10.9",
            {"width_across_flats": 13, "flange_diameter": 20.8, "flange_thickness": 1.5, "head_height": 9.7},
            {"chamfer_circle": 12.35, "flange_angle": 25},
            1898.51583 - math.sqrt(3) / 2 * 169 * 0.3,
        ),
    ],
)
def test_heads_of_other_forms(
    designation: str, aims: dict[str, float], tools: dict[str, float], volume: float, client: FlaskClient
) -> None:
    """Worked volumes of the heads; what is aimed at lies within the limits of the standards."""
    found = post(client, designation=designation, wire_diameter=8.5, head_trim=0, elongation=0, aims=aims, tools=tools)
    upset = float(points(found, "heading")["upset_ratio"]["exact"]["target"])
    assert upset * math.pi / 4 * 8.5**3 == pytest.approx(volume, rel=1e-6)
    assert "blank_volume" in points(found, "cut_off")


def test_a_slug_for_hot_forging(client: FlaskClient) -> None:
    """A worked nut of 4966.38 mm3 before tapping, with its web and 2 % loss."""
    found = post(client, **NUT)
    volume = (4966.38462 + math.pi / 4 * 13.5**2 * 3) * 1.02
    slug = points(found, "hot_forging")
    assert float(slug["blank_volume"]["exact"]["target"]) == pytest.approx(volume, rel=1e-6)
    length = volume / (math.pi / 4 * 400)
    assert float(slug["cut_off_length"]["exact"]["target"]) == pytest.approx(length, rel=1e-6)
    assert float(slug["upset_ratio"]["exact"]["target"]) == pytest.approx(length / 20, rel=1e-6)
    bore = points(found, "tapping")["tapping_bore"]
    assert (bore["min"], bore["target"], bore["max"]) == (Decimal("13.835"), Decimal("13.950"), Decimal("14.210"))


def test_forging_loss_is_asked_for_and_never_assumed(client: FlaskClient) -> None:
    found = post(client, **{name: value for name, value in NUT.items() if name != "forging_loss"})
    assert "blank_volume" not in points(found, "hot_forging")
    assert "hot_forging.blank_volume: forging_loss" in needs(found)


def test_hot_dip_nuts_are_tapped_last(client: FlaskClient) -> None:
    """ISO 10684: nuts are tapped after galvanizing, to 6AZ where they are marked Z."""
    plain = client.get("/v1/set-points", query_string={"designation": "ISO 4032 - M12 - 8"}).get_json()
    dipped = client.get("/v1/set-points", query_string={"designation": "ISO 4032 - M12 - 8Z - tZn"}).get_json()
    assert [one["id"] for one in dipped["stations"]][-2:] == ["coating", "tapping"]
    bores = [points(one, "tapping")["tapping_bore"]["min"] for one in (plain, dipped)]
    assert bores[1] > bores[0]


def test_a_thread_alone_and_an_inch_thread(client: FlaskClient) -> None:
    """ASME B1.1, 3/4-10 UNC-2A: d2 0.6773 to 0.6832 in; a nut thread is tapped."""
    found = post(client, designation="3/4-10 UNC-2A", elongation=0, roller={"pitch_diameter_spread": 0})
    rolled = points(found, "thread_rolling")
    assert rolled["thread_pitch_diameter"]["min"] == Decimal("0.6773")
    assert rolled["rolling_blank_diameter"]["unit"] == "in"
    assert [one["id"] for one in post(client, designation="M10-6H")["stations"]] == ["tapping"]


def test_every_rounding_is_inwards(client: FlaskClient) -> None:
    """Limits and warning lines of every station, at the usual steps and at coarse ones."""
    for step in (None, {"value": 0.5, "unit": "um"}, {"value": 0.007, "unit": "mm"}, 0.01, {"value": 5, "unit": "HV"}):
        body = {**WHOLE, "step": step} if step is not None else WHOLE
        for station in post(client, **body)["stations"]:
            for id, one in station["set_points"].items():
                exact, target = one["exact"], one["exact"]["target"]
                if one["min"] is not None:
                    assert one["min"] >= exact["min"], id
                if one["max"] is not None:
                    assert one["max"] <= exact["max"], id
                if target is not None and one["warning_min"] is not None:
                    assert one["warning_min"] >= target - (target - exact["min"]) / 2 - Decimal("1e-14"), id
                if target is not None and one["warning_max"] is not None:
                    assert one["warning_max"] <= target + (exact["max"] - target) / 2 + Decimal("1e-14"), id


@pytest.mark.parametrize(
    ("designation", "step", "multiple"),
    [
        ("M10-6g", {"value": 0.5, "unit": "um"}, "0.0005"),
        ("M10-6g", {"value": 2, "unit": "um"}, "0.002"),
        ("3/4-10 UNC-2A", {"value": 0.0005, "unit": "in"}, "0.0005"),
        ("3/4-10 UNC-2A", {"value": 0.0254, "unit": "mm"}, "0.001"),
    ],
)
def test_a_step_holds_in_any_unit_of_its_kind(
    designation: str, step: dict[str, Any], multiple: str, client: FlaskClient
) -> None:
    for one in points(post(client, designation=designation, step=step), "thread_rolling").values():
        for side in ("min", "target", "max"):
            assert one[side] is None or one[side] % Decimal(multiple) == 0


def test_a_step_without_end_is_refused(client: FlaskClient) -> None:
    """One micrometre has no end in inches."""
    body = {"designation": "3/4-10 UNC-2A", "step": {"value": 1, "unit": "um"}}
    assert pointers(problem(client.post("/v1/set-points", json=body), 422, "unit_does_not_fit")) == ["/step"]


def test_shifts_move_the_limits_of_the_state(client: FlaskClient) -> None:
    """The worked pairs: d2 8.869 to 8.978 before hardening; the blank follows the zone of the rolled state."""
    shift = {
        "characteristic": "thread_pitch_diameter",
        "state": "rolled",
        "final_state": "hardened",
        "before": [8.94, 8.926, 8.912, 8.913, 8.927, 8.932, 8.925, 8.907, 8.929, 8.927],
        "after": [8.948, 8.928, 8.916, 8.913, 8.931, 8.933, 8.929, 8.913, 8.94, 8.931],
    }
    body = {"designation": BOLT, "elongation": 0, "roller": {"pitch_diameter_spread": 0}}
    plain, moved = post(client, **body), post(client, **body, state_shifts=[shift])
    d2 = points(moved, "thread_rolling")["thread_pitch_diameter"]
    assert (d2["min"], d2["max"]) == (Decimal("8.869"), Decimal("8.978"))
    targets = [points(one, "thread_rolling")["rolling_blank_diameter"]["exact"]["target"] for one in (plain, moved)]
    assert float(targets[1] - targets[0]) == pytest.approx(-0.0044 * 0.838, abs=0.0001)


def test_several_shifts_are_added_and_their_spreads_too(client: FlaskClient) -> None:
    """Safe: shifts added, k s added linearly."""
    steps = [
        {"characteristic": "width_across_flats", "state": "headed", "final_state": "rolled"},
        {"characteristic": "width_across_flats", "state": "rolled", "final_state": "hardened"},
    ]
    told = [{**one, "n": 10, "shift": 0.004, "standard_deviation": 0.002} for one in steps]
    found = points(post(client, designation=BOLT, state_shifts=told), "heading")["width_across_flats"]["exact"]
    assert float(found["min"]) == pytest.approx(15.73 - 0.008 + 2 * 3.3934294787 * 0.002, abs=1e-9)
    assert float(found["max"]) == pytest.approx(16 - 0.008 - 2 * 3.3934294787 * 0.002, abs=1e-9)


def test_a_coating_takes_room_of_the_thread(client: FlaskClient) -> None:
    found = post(client, designation="M10-6g", coating_thickness={"min": 0.008, "max": {"value": 12, "unit": "um"}})
    assert points(found, "thread_rolling")["thread_pitch_diameter"]["max"] == Decimal("8.978")
    refused = client.post("/v1/set-points", json={"designation": "M12-6g", "coating_thickness": {"max": 0.07}})
    figures = problem(refused, 422, "nothing_remains")["figures"]
    assert (figures["min"], figures["max"]) == (10.679, 10.583)


@pytest.mark.parametrize(
    ("recipe", "pointer"),
    [
        ({"tempering_temperature": 424}, "/recipe/tempering_temperature"),
        ({"tempering_temperature": {"value": 796, "unit": "degF"}}, "/recipe/tempering_temperature"),
        ({"hardness_core": {"min": 249}}, "/recipe/hardness_core/min"),
        ({"hardness_core": {"max": 321, "unit": "HV"}}, "/recipe/hardness_core/max"),
        ({"hardness_core": {"min": 21.9, "unit": "HRC"}}, "/recipe/hardness_core/min"),
    ],
)
def test_a_recipe_that_breaks_the_standard(recipe: dict[str, Any], pointer: str, client: FlaskClient) -> None:
    """ISO 898-1:2013, class 8.8: 425 degrees at least, 250 to 320 HV, 22 HRC at least."""
    answer = client.post("/v1/set-points", json={"designation": BOLT, "recipe": recipe})
    assert pointers(problem(answer, 422, "recipe_not_allowed")) == [pointer]


def test_a_recipe_within_the_standard_is_not_repeated_as_ours(client: FlaskClient) -> None:
    recipe = {"tempering_temperature": 425, "hardness_core": {"min": 250, "max": 320}}
    found = points(post(client, designation=BOLT, recipe=recipe), "hardening")
    assert found["tempering_temperature"]["min"] == 425
    assert found["tempering_temperature"]["target"] is None


@pytest.mark.parametrize(
    ("extra", "pointer", "near"),
    [
        ({"tools": {"chamfer_circel": 15}}, "/tools/chamfer_circel", "chamfer_circle"),
        ({"aims": {"lenght": 60}}, "/aims/lenght", "length"),
        ({"roller": {"pitch_diameter_spred": 0.002}}, "/roller/pitch_diameter_spred", "pitch_diameter_spread"),
        ({"recipe": {"tempering": 425}}, "/recipe/tempering", "tempering_temperature"),
    ],
)
def test_unknown_members_are_refused_with_the_nearest(
    extra: dict[str, Any], pointer: str, near: str, client: FlaskClient
) -> None:
    found = problem(client.post("/v1/set-points", json={"designation": BOLT, **extra}), 422, "unknown_member")
    assert pointers(found) == [pointer]
    assert near in found["nearest"]


@pytest.mark.parametrize(
    ("extra", "code", "pointer"),
    [
        ({"wire_diameter": 0}, "invalid", "/wire_diameter"),
        ({"wire_diameter": "9.6"}, "wrong_type", "/wire_diameter"),
        ({"wire_diameter": {"value": 9.6, "unit": "HV"}}, "unit_does_not_fit", "/wire_diameter"),
        ({"head_trim": -0.1}, "invalid", "/head_trim"),
        ({"aims": {"width_across_flats": 16.1}}, "contradiction", "/aims/width_across_flats"),
        ({"aims": {"thread_length": 70}}, "contradiction", "/aims/thread_length"),
        ({"tools": {"chamfer_circle": 1, "chamfer_angle": 50}}, "out_of_range", "/tools/chamfer_circle"),
        ({"tools": {"chamfer_angle": 90}}, "out_of_range", "/tools/chamfer_angle"),
        ({"roller": {"root_radius": 0.8}}, "out_of_range", "/roller/root_radius"),
        ({"stage": "polishing"}, "invalid", "/stage"),
        (
            {"state_shifts": [{"characteristic": "length", "state": "forged", "before": [1, 2], "after": [1, 2]}]},
            "invalid",
            "/state_shifts/0/state",
        ),
        ({"state_shifts": [{"characteristic": "length", "state": "headed"}]}, "missing_member", "/state_shifts/0/n"),
    ],
)
def test_what_cannot_be_answered(extra: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    merged = {**WHOLE, **extra}
    for name in ("aims", "tools", "roller"):
        if name in extra:
            merged[name] = {**WHOLE[name], **extra[name]}  # type: ignore[dict-item]
    answer = client.post("/v1/set-points", json=merged)
    assert pointers(problem(answer, 422, code)) == [pointer]


def test_memory_is_marked_wherever_it_is_used(client: FlaskClient) -> None:
    """The angle of a chamfer is a habit of the trade; four and a half diameters in two blows are from memory."""
    thick = post(client, **{**WHOLE, "wire_diameter": 9.0})
    assert points(thick, "heading")["blows"]["basis"]["checked"] == "memory"
    assert points(thick, "cut_off")["blank_volume"]["basis"]["checked"] == "memory"
    assert points(thick, "thread_rolling")["rolling_blank_diameter"]["basis"]["checked"] == "formula"


def test_too_much_head_for_any_blows(client: FlaskClient) -> None:
    found = post(client, **{**WHOLE, "wire_diameter": 5.5})
    assert "blows" not in points(found, "heading")
    assert any("Upset ratio" in line for line in found["cautions"])


def test_the_derivation_leads_to_every_figure(client: FlaskClient) -> None:
    found = post(client, **WHOLE, explain=True)
    answered = {step["answers"] for step in found["derivation"] if step["answers"]}
    for station in found["stations"]:
        for id, one in station["set_points"].items():
            for side in ("min", "target", "max"):
                if one[side] is not None:
                    assert f"stations.{station['id']}.set_points.{id}.{side}" in answered


def test_pieces_at_risk_and_one_station(client: FlaskClient) -> None:
    found = post(client, **WHOLE, rate=300, check_interval=15, stage="thread_rolling")
    assert [(one["id"], one["pieces_at_risk"]) for one in found["stations"]] == [("thread_rolling", 4500)]


def test_a_purchasers_requirement_is_the_limit(client: FlaskClient) -> None:
    found = post(client, designation=BOLT, requirements={"width_across_flats": {"min": 15.8}})
    assert points(found, "heading")["width_across_flats"]["min"] == Decimal("15.800")


def test_a_shank_of_no_length_needs_no_diameter(client: FlaskClient) -> None:
    """Threaded to the head by the figures aimed at: the standard's body diameter is not asked for."""
    aims = {"thread_length": 30, "length": 30, "socket_depth": 4.2}
    found = post(
        client,
        designation="ISO 4762 - M8x30 - 12.9",
        wire_diameter=7,
        elongation=0,
        head_trim=0,
        aims=aims,
        tools={"drill_diameter": 6},
    )
    assert {one for one in needs(found) if one.startswith("cut_off")} == set()
    assert points(found, "cut_off")["cut_off_length"]["target"] > 30
