"""Set-points, limits by state and decisions on pieces through the SDK, as exact decimals."""

from decimal import Decimal

import pytest

from boltwright import Client, check_image
from boltwright.errors import MemberError, StationError


def test_set_points_of_a_thread_and_of_a_part(client: Client) -> None:
    rolled = client.set_points("M10-6g").station("thread_rolling")
    assert rolled.set_points["thread_pitch_diameter"].max == Decimal("8.994")
    found = client.set_points(
        "ISO 4014 - M10x60 - 8.8",
        wire_diameter={"value": 9600, "unit": "um"},
        head_trim=0,
        elongation=0,
        aims={"thread_length": 26, "washer_face_thickness": Decimal(0)},
        tools={"chamfer_circle": Decimal("15.2")},
        rate=300,
        check_interval=15,
        explain=True,
    )
    cut = found.station("cut_off")
    assert (cut.set_points["cut_off_length"].target, cut.pieces_at_risk) == (Decimal("77.907"), 4500)
    assert cut.set_points["blank_volume"].basis.caution == "from memory"
    assert any(step.answers == "stations.cut_off.set_points.cut_off_length.target" for step in found.derivation)
    assert {need.member for need in found.needs} == {"roller.pitch_diameter_spread"}


def test_a_register_image(client: Client) -> None:
    asked = {
        "station": 7,
        "stage": "thread_rolling",
        "characteristics": ["thread_pitch_diameter"],
        "sequence": 41,
        "issued_at": 1_764_460_800,
        "order": "4711-C",
        "lot": "L1",
    }
    found = client.set_points_registers("M10-6g", asked, coating_thickness={"max": {"value": 12, "unit": "um"}})
    assert (found.entries[0].stop_min, found.entries[0].stop_max, found.flags) == (8862, 8978, 12)
    assert check_image(found.image, found.switch_word, 7) == "good"
    cut = {**asked, "stage": "cut_off", "characteristics": ["cut_off_length"]}
    with pytest.raises(StationError) as missing:
        client.set_points_registers("ISO 4014 - M10x60 - 8.8", cut)
    assert missing.value.code == "plant_figures_missing"


def test_limits_of_a_state(client: Client) -> None:
    before = [Decimal("8.94"), 8.926, 8.912, 8.913, 8.927, 8.932, 8.925, 8.907, 8.929, 8.927]
    after = [8.948, 8.928, 8.916, 8.913, 8.931, 8.933, 8.929, 8.913, 8.94, 8.931]
    found = client.state_limits(before, after, designation="M10-6g", characteristic="thread_pitch_diameter")
    assert (found.min, found.max, found.n) == (Decimal("8.869"), Decimal("8.978"), 10)
    with pytest.raises(StationError) as refused:
        client.state_limits(before, after, min=8.92, max=8.93, unit="mm")
    assert refused.value.code == "nothing_remains"


def test_decisions_on_pieces(client: Client) -> None:
    station = {"min": Decimal("8.869"), "max": 8.978, "resolution": 0.001, "standard_deviation": 0.0136}
    first = client.piece_decision(station, [(number, 8.92) for number in range(1, 6)])
    assert first.decisions[-1].decision == "continue"
    alarm = client.piece_decision(station, [(6, 8.955), (7, Decimal("8.958"))], state=first.state)
    fresh = [(8, 8.949), (9, 8.952), (10, 8.95), (11, 8.952)]
    last = client.piece_decision(station, fresh, state=alarm.state).decisions[-1]
    assert (last.decision, last.amount) == ("adjust", Decimal("-0.027"))
    with pytest.raises(StationError):
        client.piece_decision({**station, "max": None}, [(1, 8.92)])
    with pytest.raises(MemberError):
        client.piece_decision({**station, "target": 9}, [(1, 8.92)])
