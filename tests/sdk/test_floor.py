"""Signed limits, their store, decisions without a service, and the commands `release` and `floor`."""

from __future__ import annotations

import json
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from case_files import worked
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from decided_alike import in_process, through_http
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import given, settings
from hypothesis import strategies as st
from tree import ROOT

import boltwright
from boltwright import LimitsRefused, LimitsStore, check_image, decide_pieces, encode_image, public_key_id, sign_limits
from boltwright.errors import ProblemError, StationError

PRIVATE = bytes(range(32))
PUBLIC = Ed25519PrivateKey.from_private_bytes(PRIVATE).public_key().public_bytes_raw()
KEYS = {public_key_id(PUBLIC): PUBLIC}
T0 = 1_764_460_800
IMAGE = worked("registers")["good"][0]["image_hex"]
PAYLOAD = {
    "station": 7,
    "sequence": 41,
    "issued_at": T0,
    "valid_until": T0 + 86_400,
    "run_on": True,
    "order": "4711-C",
    "lot": "L2026-0815",
    "designation": "M10-6g",
    "image": IMAGE,
}


class Clock:
    def __init__(self, now: int = T0) -> None:
        self.now = now

    def __call__(self) -> float:
        return self.now


def signed(**changes: Any) -> bytes:
    return sign_limits({**PAYLOAD, **changes}, PRIVATE)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store(tmp_path: Path, clock: Clock) -> LimitsStore:
    return LimitsStore(tmp_path, 7, KEYS, clock)


def refused(take: Callable[[], Any]) -> str:
    with pytest.raises(LimitsRefused) as caught:
        take()
    return caught.value.code


def test_modules_that_stand_twice_are_the_same() -> None:
    """The floor decides and reads as the service does: the same bytes."""
    for name in ("piece_rule", "piece_request", "register_image"):
        own = (ROOT / "sdk" / "boltwright" / "floor" / f"{name}.py").read_bytes()
        assert own == (ROOT / "server" / "boltwright_server" / "stations" / f"{name}.py").read_bytes(), name


def test_a_key_of_the_standard() -> None:
    """RFC 8032, 7.1, test 1: secret and public key."""
    secret = bytes.fromhex("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60")
    public = bytes.fromhex("d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a")
    assert json.loads(sign_limits(PAYLOAD, secret))["key"] == public_key_id(public)


def test_limits_are_taken_and_held_through_a_restart(tmp_path: Path, store: LimitsStore, clock: Clock) -> None:
    assert store.current() is None
    taken = store.take(signed())
    assert (taken.payload, taken.marks) == (PAYLOAD, ())
    again = LimitsStore(tmp_path, 7, KEYS, clock).current()
    assert again is not None
    assert again.payload == PAYLOAD


@pytest.mark.parametrize(
    ("file", "code"),
    [
        (signed(station=8), "other_station"),
        (signed(sequence=40), "replayed"),
        (signed(sequence=41), "replayed"),
        (signed(sequence=43, valid_until=T0 - 1), "expired"),
        (signed(sequence=43).replace(b"4711-C", b"4712-C"), "signature"),
        (b"", "signature"),
        (b"{}", "signature"),
        (signed(sequence=43)[:-5], "signature"),
        (sign_limits({**PAYLOAD, "sequence": 43}, bytes(32)), "unknown_key"),
    ],
)
def test_a_refused_file_changes_nothing(file: bytes, code: str, store: LimitsStore) -> None:
    store.take(signed())
    store.take(signed(sequence=42))
    assert refused(lambda: store.take(file)) == code
    held = store.current()
    assert held is not None
    assert held.payload["sequence"] == 42


def test_a_signature_of_another_key_under_a_known_id(store: LimitsStore) -> None:
    foreign = json.loads(sign_limits(PAYLOAD, bytes(32)))
    foreign["key"] = public_key_id(PUBLIC)
    assert refused(lambda: store.take(json.dumps(foreign).encode())) == "signature"


@pytest.mark.parametrize("at", range(0, len(signed()), 7))
def test_no_byte_of_a_file_can_change_unseen(at: int, store: LimitsStore) -> None:
    file = bytearray(signed())
    file[at] ^= 1
    try:
        taken = store.take(bytes(file))
    except LimitsRefused as error:
        said = error.code
    else:  # a blank of the outer text carries nothing
        said = "signature" if taken.payload == PAYLOAD else "taken"
    assert said in ("signature", "unknown_key")


def test_what_ends_in_use_runs_on_with_its_mark(store: LimitsStore, clock: Clock) -> None:
    store.take(signed())
    clock.now = T0 + 90_000
    held = store.current()
    assert held is not None
    assert held.marks == ("expired",)


def test_what_may_not_run_on_is_not_used(store: LimitsStore, clock: Clock) -> None:
    store.take(signed(run_on=False))
    clock.now = T0 + 90_000
    assert refused(store.current) == "expired"


def test_a_clock_that_is_set_back_revives_nothing(tmp_path: Path, store: LimitsStore, clock: Clock) -> None:
    store.take(signed())
    clock.now = T0 + 90_000
    store.current()
    clock.now = T0 + 100
    later = LimitsStore(tmp_path, 7, KEYS, clock)
    held = later.current()
    assert held is not None
    assert held.marks == ("expired", "clock_back")
    assert refused(lambda: later.take(signed(sequence=42))) == "expired"


def test_the_date_of_issue_counts_as_seen(store: LimitsStore) -> None:
    """A file from tomorrow, with a clock of today: time never runs back behind it."""
    held = store.take(signed(issued_at=T0 + 3600))
    assert held.marks == ("clock_back",)
    assert refused(lambda: store.take(signed(sequence=42, valid_until=T0 + 1800))) == "expired"


def test_a_key_that_was_withdrawn_releases_nothing_any_more(tmp_path: Path, store: LimitsStore, clock: Clock) -> None:
    store.take(signed())
    assert refused(LimitsStore(tmp_path, 7, {}, clock).current) == "unknown_key"


def test_a_store_that_was_altered_is_told(tmp_path: Path, store: LimitsStore, clock: Clock) -> None:
    store.take(signed())
    file = next(tmp_path.iterdir())
    file.write_text(file.read_text().replace("4711-C", "4712-C"))
    assert refused(LimitsStore(tmp_path, 7, KEYS, clock).current) == "signature"
    file.write_text("{")
    assert refused(lambda: LimitsStore(tmp_path, 7, KEYS, clock)) == "signature"


@pytest.mark.parametrize(
    "payload",
    [
        {**PAYLOAD, "sequence": 41.0},
        {**PAYLOAD, "run_on": 1},
        {**PAYLOAD, "station": True},
        {**PAYLOAD, "extra": 1},
        {name: value for name, value in PAYLOAD.items() if name != "order"},
    ],
)
def test_a_payload_that_is_not_whole_is_not_signed(payload: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match=r"is of type|unknown member|is missing"):
        sign_limits(payload, PRIVATE)


@pytest.mark.parametrize("case", worked("registers")["good"], ids=lambda one: one["name"])
def test_images(case: dict[str, Any]) -> None:
    image = encode_image(case["in"])
    assert image == case["image_hex"]
    assert image.crc32 == case["crc32"]
    assert image.switch_word(case["in"]["bank"]) == case["switch_word"]
    assert check_image(image, case["switch_word"], case["in"]["station"]) == case["check"]


@pytest.mark.parametrize("case", worked("registers")["refused"], ids=lambda one: one["name"])
def test_refused_images(case: dict[str, Any]) -> None:
    found = check_image(case["image_hex"], case["switch_word"], case["station"], case["last_sequence"])
    assert found == case["check"]


def test_an_image_that_cannot_be() -> None:
    header = worked("registers")["good"][0]["in"]
    for wrong in ({"order": "x" * 21}, {"sequence": 0}, {"entries": [*header["entries"]] * 7}):
        with pytest.raises(ValueError):
            encode_image({**header, **wrong})
    with pytest.raises(ValueError, match="lot"):
        encode_image({name: value for name, value in header.items() if name != "lot"})
    assert check_image("no hex", 0, 7) == "length"


STATION = {"min": 8.869, "max": 8.978, "resolution": 0.001, "standard_deviation": 0.0136}


def online(client: FlaskClient, station: Any, readings: Any, state: str | None) -> dict[str, Any]:
    found: dict[str, Any] = client.post(
        "/v1/piece-decision", json={"station": station, "readings": readings, "state": state}
    ).get_json()
    found.pop("fingerprint", None)
    return found


def test_online_offline_and_the_plain_rule_decide_alike(application: Flask) -> None:
    """Also where the two take turns with each other's states; `python -m tests.faults.stations decisions` does more."""
    client = application.test_client()

    def post(body: dict[str, Any]) -> dict[str, Any]:
        return online(client, body["station"], body["readings"], body["state"])

    assert through_http(post, 20_000, 300) > 3000


def test_both_copies_and_the_plain_rule_decide_alike() -> None:
    """`python -m tests.faults.stations in-process` does this a million times."""
    assert in_process(2_000_000, 3000) > 15_000


@settings(max_examples=300)
@given(st.data())
def test_whatever_is_sent_is_refused_alike(data: st.DataObject) -> None:
    """Stations and readings of every kind: an answer, or a refusal with a code and a pointer, never anything else."""
    anything = st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=4), st.decimals())
    names = st.sampled_from(("min", "max", "resolution", "standard_deviation", "target", "step", "extra"))
    station = data.draw(st.one_of(anything, st.dictionaries(names, anything)))
    readings = data.draw(
        st.one_of(
            st.lists(st.one_of(anything, st.dictionaries(st.sampled_from(("number", "value", "unit")), anything))),
            st.lists(st.tuples(st.integers(-2, 20), st.floats(8, 10))),
        )
    )
    state = data.draw(st.one_of(st.none(), st.text(max_size=20)))
    try:
        answered = len(decide_pieces(station, readings, state)["decisions"])
    except ProblemError as error:
        refusal: ProblemError | None = error
    else:
        refusal = None
        assert answered == len(readings)
    assert refusal is None or (refusal.code and refusal.errors[0].pointer.startswith("/"))


def test_offline_refusals_carry_the_codes_of_the_service() -> None:
    with pytest.raises(StationError) as coarse:
        decide_pieces({"min": Decimal("8.869"), "max": Decimal("8.878"), "resolution": 0.001}, [(1, 8.87)])
    assert (coarse.value.code, coarse.value.status) == ("resolution_too_coarse", 422)
    assert coarse.value.errors[0].pointer == "/station/resolution"
    state = decide_pieces(STATION, [(1, 8.92)])["state"]
    with pytest.raises(StationError) as other:
        decide_pieces({**STATION, "max": 8.979}, [(2, 8.92)], state)
    assert other.value.code == "state_not_of_this_station"
    with pytest.raises(StationError) as single:
        decide_pieces({"min": 8.869, "max": None, "resolution": 0.001}, [(1, 8.87)])
    assert single.value.code == "two_limits_needed"


def test_an_amount_is_the_decimal_that_the_step_asks_for() -> None:
    readings = [(number, 8.92) for number in range(1, 6)]
    readings += [(6, 8.955), (7, 8.958), (8, 8.949), (9, 8.952), (10, 8.95), (11, 8.952)]
    last = decide_pieces(STATION, readings)["decisions"][-1]
    assert (last["decision"], last["amount"]) == ("adjust", -0.027)


def test_the_floor_stands_at_the_top_of_the_package() -> None:
    for name in ("decide_pieces", "encode_image", "check_image", "ModbusWriter", "LimitsStore", "sign_limits"):
        assert name in boltwright.__all__
