"""The commands `release`, `release-key` and `floor`: from a signed file to a machine that runs on it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from case_files import worked
from controller import Machine, ModbusServer, scanning, server
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

from boltwright import public_key_id
from boltwright.command_line import main

PUBLIC = Ed25519PrivateKey.from_private_bytes(bytes(range(32))).public_key().public_bytes_raw()
IMAGE = worked("registers")["good"][0]["image_hex"]
PAYLOAD = {
    "station": 7,
    "sequence": 41,
    "issued_at": 1_764_460_800,
    "valid_until": 0,
    "run_on": True,
    "order": "4711-C",
    "lot": "L2026-0815",
    "designation": "M10-6g",
    "image": IMAGE,
}


@pytest.fixture
def modbus() -> Iterator[ModbusServer]:
    with server() as running:
        yield running


@pytest.fixture
def phrase(monkeypatch: pytest.MonkeyPatch) -> str:
    monkeypatch.setattr("boltwright.command_line.release.getpass", lambda _: "correct horse")
    return "correct horse"


def released(folder: Path, capsys: pytest.CaptureFixture[str], **changes: Any) -> str:
    """Release limits by the command; return the line of the key for the floor's configuration."""
    key = folder / "release.pem"
    if not key.exists():
        assert main(["release-key", str(key)]) == 0
        (folder / "keys.txt").write_text(capsys.readouterr().out.splitlines()[-1])
    (folder / "payload.json").write_text(json.dumps({**PAYLOAD, **changes}))
    command = ["release", str(folder / "payload.json"), "--key", str(key), "--out", str(folder / "limits.json")]
    assert main(command) == 0, capsys.readouterr().err
    return (folder / "keys.txt").read_text()


def configured(folder: Path, key: str, port: int) -> str:
    file = folder / "floor.toml"
    file.write_text(
        f'[limits]\ndirectory = "held"\nstation = 7\ninbox = "limits.json"\n[limits.keys]\n{key}\n'
        f'[modbus]\nhost = "127.0.0.1"\nport = {port}\n'
    )
    return str(file)


def test_from_release_to_the_machine(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], phrase: str, modbus: ModbusServer
) -> None:
    file = configured(tmp_path, released(tmp_path, capsys), modbus.port)
    with scanning(Machine(modbus.port)) as machine:
        assert main(["floor", file, "--once"]) == 0
        assert main(["floor", file, "--once"]) == 0
        assert [one.hex() for one in machine.taken] == [IMAGE]
    assert "in_use: sequence 41, order 4711-C" in capsys.readouterr().out


def test_each_end_of_a_pass_has_its_exit_code(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], phrase: str, modbus: ModbusServer
) -> None:
    file = configured(tmp_path, released(tmp_path, capsys), modbus.port)
    with scanning(Machine(modbus.port, operator=True)):
        assert main(["floor", file, "--once"]) == 3
        assert main(["floor", file, "--once"]) == 3
    modbus.restart()
    with scanning(Machine(modbus.port, station=8)):
        assert main(["floor", file, "--once"]) == 4
    modbus.stop()
    assert main(["floor", file, "--once"]) == 5
    (tmp_path / "limits.json").write_text((tmp_path / "limits.json").read_text().replace("4711-C", "4712-C"))
    assert main(["floor", file, "--once"]) == 6
    said = capsys.readouterr().out
    for text in ("waiting_for_operator", "station", "no_connection", "refused: signature"):
        assert text in said


def test_no_limits_yet(tmp_path: Path, capsys: pytest.CaptureFixture[str], modbus: ModbusServer) -> None:
    file = configured(tmp_path, f'"{public_key_id(PUBLIC)}" = "{PUBLIC.hex()}"', modbus.port)
    assert main(["floor", file, "--once"]) == 4
    assert "no limits yet" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[limits", "floor.toml"),
        ("[limit]\n", "unknown limit"),
        ('[limits]\ndirectory = "x"\nstation = "7"\ninbox = "y"\nkeys = []\n[modbus]\nhost = "h"\n', "station"),
        ('[limits]\ndirectory = "x"\nstation = 7\ninbox = "y"\nkeys = ["00"]\n[modbus]\nhost = "h"\n', "keys"),
        ('[limits]\ndirectory = "x"\nstation = 7\ninbox = "y"\nkeys = []\n', "[modbus]"),
    ],
)
def test_a_configuration_that_cannot_be_used(
    text: str, told: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "floor.toml").write_text(text)
    assert main(["floor", str(tmp_path / "floor.toml"), "--once"]) == 1
    assert told in capsys.readouterr().err


def test_a_key_without_a_pass_phrase_releases_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plain = Ed25519PrivateKey.generate().private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    (tmp_path / "k.pem").write_bytes(plain)
    (tmp_path / "p.json").write_text(json.dumps(PAYLOAD))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("boltwright.command_line.release.getpass", lambda _: "x")
        command = ["release", str(tmp_path / "p.json"), "--key", str(tmp_path / "k.pem"), "--out", str(tmp_path / "o")]
        assert main(command) == 3
    assert "no pass phrase" in capsys.readouterr().err
    assert not (tmp_path / "o").exists()
