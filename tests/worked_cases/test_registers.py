"""Register images of layout 1: worked images, and an independent reader of what the service writes (struct only)."""

import struct
from decimal import Decimal
from hashlib import sha256
from typing import Any
from zlib import crc32

import pytest
from case_files import worked
from flask.testing import FlaskClient
from problem_documents import pointers, problem

from boltwright_server.stations import register_image

DATA = worked("registers")
REGISTERS = {
    "station": 7,
    "stage": "thread_rolling",
    "characteristics": ["thread_pitch_diameter", "rolling_blank_diameter", "thread_minor_diameter"],
    "sequence": 70_000,
    "issued_at": 1_764_460_800,
    "valid_until": 1_764_547_200,
    "order": "4711-C",
    "lot": "L2026-0815",
}
THREAD = {"designation": "M10-6g", "elongation": 0, "roller": {"pitch_diameter_spread": 0}}


@pytest.mark.parametrize("case", DATA["good"], ids=[one["name"] for one in DATA["good"]])
def test_an_image_is_encoded(case: dict[str, Any]) -> None:
    image = register_image.encode(case["in"])
    assert image.hex() == case["image_hex"]
    assert f"{register_image.checksum(image):08x}" == case["crc32"]
    switch = register_image.switch_word(case["in"]["bank"], case["in"]["sequence"])
    assert f"{switch:04x}" == case["switch_word"]
    assert register_image.check(image, switch, case["in"]["station"]) == case["check"]


@pytest.mark.parametrize("case", DATA["refused"], ids=[one["name"] for one in DATA["refused"]])
def test_an_image_is_refused(case: dict[str, Any]) -> None:
    image, switch = bytes.fromhex(case["image_hex"]), int(case["switch_word"], 16)
    assert register_image.check(image, switch, case["station"], case["last_sequence"]) == case["check"]


def test_the_checksum_of_the_standard_text() -> None:
    """CRC-32, reflected 04C11DB7: the check value of "123456789"."""
    assert crc32(b"123456789") == 0xCBF43926


@pytest.mark.parametrize("at", range(register_image.BYTES))
def test_no_byte_can_change_unseen(at: int) -> None:
    case = DATA["good"][1]
    image = bytearray.fromhex(case["image_hex"])
    image[at] ^= 0x10
    assert register_image.check(bytes(image), int(case["switch_word"], 16), 3) != "good"


@pytest.mark.parametrize(
    ("last", "taken"), [(69_999, "good"), (70_000, "old sequence"), (70_001, "old sequence"), (2**32 - 5, "good")]
)
def test_a_sequence_is_newer_across_its_end(last: int, taken: str) -> None:
    case = DATA["good"][1]
    assert register_image.check(bytes.fromhex(case["image_hex"]), int(case["switch_word"], 16), 3, last) == taken


def read(image: str) -> dict[str, Any]:
    """Read an image by the published layout alone: registers as big-endian words, no code of the service."""
    words = struct.unpack(">120H", bytes.fromhex(image))

    def long(at: int) -> int:
        return words[at] << 16 | words[at + 1]

    def signed(at: int) -> int | None:
        found = struct.unpack(">i", struct.pack(">I", long(at)))[0]
        return None if found == -(2**31) else found

    def text(at: int) -> str:
        return struct.pack(">10H", *words[at : at + 10]).rstrip(b"\0").decode("ascii")

    assert (words[0], words[1], words[2], long(108)) == (0x4257, 1, 118, 0x01020304)
    assert words[110:118] == (0,) * 8
    assert long(118) == crc32(struct.pack(">118H", *words[:118]))
    entries = [
        (words[at], words[at + 1], *(signed(at + 2 + 2 * one) for one in range(5)))
        for at in range(36, 36 + 12 * words[34], 12)
    ]
    assert words[36 + 12 * words[34] : 108] == (0,) * (72 - 12 * words[34])
    return {
        "station": words[3],
        "sequence": long(4),
        "issued_at": long(6),
        "valid_until": long(8),
        "order": text(10),
        "lot": text(20),
        "hash": struct.pack(">4H", *words[30:34]),
        "flags": words[35],
        "entries": entries,
    }


def ask(client: FlaskClient, body: dict[str, Any], **registers: Any) -> dict[str, Any]:
    answer = client.post("/v1/set-points", json={**body, "as": "registers", "registers": {**REGISTERS, **registers}})
    assert answer.status_code == 200, answer.get_data(as_text=True)
    found: dict[str, Any] = answer.get_json()
    return found


def test_the_image_says_what_the_answer_says(client: FlaskClient) -> None:
    """ISO 965-2, M10-6g: d2 8.862 to 8.994, d1 at most 8.344 mm; the blank is worked out elsewhere."""
    found = ask(client, THREAD)
    image = read(found["image"])
    assert {name: image[name] for name in ("station", "sequence", "issued_at", "valid_until", "order", "lot")} == {
        name: REGISTERS[name] for name in ("station", "sequence", "issued_at", "valid_until", "order", "lot")
    }
    assert image["entries"] == [
        (1, 1, 8862, 8895, 8928, 8961, 8994),
        (5, 1, 8946, 8957, 8967, 8974, 8982),
        (4, 1, None, None, None, None, 8344),
    ]
    assert found["basis_text"] == f"M10-6g @ {found['fingerprint']}"
    assert image["hash"] == sha256(found["basis_text"].encode()).digest()[:8]
    assert image["flags"] == 4 + 8
    assert found["switch_word"] == f"{1:02x}{70_000 % 256:02x}"
    assert [one["checked"] for one in found["entries"]][1] == "formula"


def test_flags(client: FlaskClient) -> None:
    """1 trial, 2 doubtful, 4 limits of a state, 8 may run on."""
    d2 = ["thread_pitch_diameter"]
    assert ask(client, THREAD, characteristics=d2)["flags"] == 8
    assert ask(client, THREAD, characteristics=d2, trial=True, run_on=False)["flags"] == 1
    assert ask(client, {**THREAD, "coating_thickness": {"max": 0.012}}, characteristics=d2)["flags"] == 4 + 8
    length = {
        "designation": "ISO 4014 - M10x60 - 8.8",
        "wire_diameter": 9.6,
        "head_trim": 0,
        "elongation": 0,
        "aims": {"thread_length": 26, "washer_face_thickness": 0},
        "tools": {"chamfer_circle": 15.2},
    }
    found = ask(client, length, stage="cut_off", characteristics=["cut_off_length"])
    assert found["flags"] == 2 + 4 + 8
    assert read(found["image"])["entries"] == [(7, 1, None, None, 77907, None, None)]


def test_inches_go_to_millimetres_exactly_and_then_inwards(client: FlaskClient) -> None:
    """ASME B1.1, 3/4-10 UNC-2A: d2 0.6773 to 0.6832 in are 17.20342 to 17.35328 mm."""
    found = ask(client, {"designation": "3/4-10 UNC-2A"}, characteristics=["thread_pitch_diameter"])
    entry = read(found["image"])["entries"][0]
    assert (entry[1], entry[2], entry[6]) == (1, 17204, 17353)


def test_finer_steps_take_the_finer_scale(client: FlaskClient) -> None:
    body = {**THREAD, "step": {"value": 0.5, "unit": "um"}}
    entry = read(ask(client, body, characteristics=["rolling_blank_diameter"])["image"])["entries"][0]
    assert entry[1] == 2
    assert Decimal(entry[2]) / 10_000 == Decimal("8.9455")


def test_hardness_and_internal_threads_have_codes_of_their_own(client: FlaskClient) -> None:
    nut = {"designation": "ISO 4032 - M16 - 8"}
    tapped = ask(client, nut, stage="tapping", characteristics=["thread_pitch_diameter", "tapping_bore"])
    assert [one[0] for one in read(tapped["image"])["entries"]] == [2, 6]
    hardness = ask(client, nut, stage="hardening", characteristics=["hardness_core"])
    assert read(hardness["image"])["entries"][0][:3] == (30, 5, 200)


@pytest.mark.parametrize(
    ("registers", "code", "pointer"),
    [
        ({"sequence": 0}, "out_of_range", "/registers/sequence"),
        ({"sequence": 2**32}, "out_of_range", "/registers/sequence"),
        ({"order": "x" * 21}, "out_of_range", "/registers/order"),
        ({"lot": "Größe"}, "out_of_range", "/registers/lot"),
        ({"characteristics": []}, "out_of_range", "/registers/characteristics"),
        ({"characteristics": ["thread_pitch_diameter"] * 2}, "out_of_range", "/registers/characteristics"),
        ({"characteristics": ["thread_pitch_diametre"]}, "unknown_characteristic", "/registers/characteristics/0"),
        ({"stage": "heading"}, "contradiction", "/registers/stage"),
        ({"bank": "C"}, "invalid", "/registers/bank"),
        ({"valid_until": 1}, "contradiction", "/registers/valid_until"),
        ({"station": 65_536}, "out_of_range", "/registers/station"),
        ({"stations": 7}, "unknown_member", "/registers/stations"),
    ],
)
def test_an_image_that_cannot_be(registers: dict[str, Any], code: str, pointer: str, client: FlaskClient) -> None:
    body = {**THREAD, "as": "registers", "registers": {**REGISTERS, **registers}}
    assert pointers(problem(client.post("/v1/set-points", json=body), 422, code)) == [pointer]


def test_no_image_without_the_figures_of_the_plant(client: FlaskClient) -> None:
    asked = {**REGISTERS, "stage": "cut_off", "characteristics": ["cut_off_length"]}
    body = {"designation": "ISO 4014 - M10x60 - 8.8", "as": "registers", "registers": asked}
    found = problem(client.post("/v1/set-points", json=body), 422, "plant_figures_missing")
    assert {"station": "cut_off", "set_point": "cut_off_length", "member": "wire_diameter"} in found["needs"]


def test_image_and_request_belong_together(client: FlaskClient) -> None:
    lone = client.post("/v1/set-points", json={**THREAD, "registers": REGISTERS})
    assert pointers(problem(lone, 422, "missing_member")) == ["/as"]
    bare = client.post("/v1/set-points", json={**THREAD, "as": "registers"})
    assert pointers(problem(bare, 422, "missing_member")) == ["/registers"]
    both = client.post("/v1/set-points", json={**THREAD, "as": "registers", "registers": REGISTERS, "explain": True})
    assert pointers(problem(both, 422, "contradiction")) == ["/explain"]
