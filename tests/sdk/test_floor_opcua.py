"""Register images written to a real OPC UA server on the loopback: whole or not at all, each end named."""

from __future__ import annotations

import builtins
import socket
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from asyncua import ua
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ec import SECP256R1, generate_private_key
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
from interrupted_writes import image
from opcua_controller import NAMESPACE, OpcUaController, opcua, pair

from boltwright import OpcUaWriter, sign_limits
from boltwright.command_line import main
from boltwright.floor.service import Settings

LIMITS = '[limits]\ndirectory = "held"\nstation = 7\ninbox = "limits.json"\nkeys = []\n'
Files = dict[str, Path]


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Files:
    folder = tmp_path_factory.mktemp("certificates")
    made = {name: pair(folder, name) for name in ("host", "machine", "other")}
    return {f"{name}{at}": one for name, both in made.items() for at, one in zip((".crt", ".key"), both, strict=True)}


@pytest.fixture(scope="module")
def open_server() -> Iterator[OpcUaController]:
    with opcua() as running:
        yield running


@pytest.fixture
def machine(open_server: OpcUaController) -> OpcUaController:
    """A machine that has just come back, without security: a server takes seconds to start."""
    open_server.empty()
    return open_server


@pytest.fixture(scope="module")
def guarded_server(files: Files) -> Iterator[OpcUaController]:
    with opcua((files["machine.crt"], files["machine.key"])) as running:
        yield running


@pytest.fixture
def guarded(guarded_server: OpcUaController) -> OpcUaController:
    guarded_server.empty()
    return guarded_server


@pytest.fixture
def plain(machine: OpcUaController) -> Iterator[Callable[..., OpcUaWriter]]:
    """Make writers without security; close them at the end."""
    made: list[OpcUaWriter] = []

    def make(**more: Any) -> OpcUaWriter:
        given = {"url": machine.url, "namespace": NAMESPACE, "security": "none", "timeout": 0.5, **more}
        made.append(OpcUaWriter(**given))
        return made[-1]

    yield make
    for one in made:
        one.close()


def secured(files: Files, server: str = "machine.crt", **more: Any) -> dict[str, Any]:
    return {
        "namespace": NAMESPACE,
        "certificate": files["host.crt"],
        "private_key": files["host.key"],
        "server_certificate": files[server],
        "timeout": 0.5,
        **more,
    }


def test_images_come_into_use_signed_and_encrypted_each_in_the_other_bank(
    files: Files, guarded: OpcUaController
) -> None:
    writer = OpcUaWriter(guarded.url, **secured(files, timeout=5.0))
    assert writer.write(image(41)) == "in_use"
    assert (guarded.read("Switch"), guarded.read("BankA").hex()) == (0x0129, image(41))
    assert writer.write(image(42)) == "in_use"
    assert (guarded.read("Switch"), guarded.read("BankB").hex()) == (0x022A, image(42))
    assert guarded.read("BankA").hex() == image(41)
    assert writer.write(image(42)) == "in_use"
    assert [one.hex() for one in guarded.program.taken] == [image(41), image(42)]
    writer.close()


def test_a_server_with_another_certificate_is_not_talked_to(files: Files, guarded: OpcUaController) -> None:
    writer = OpcUaWriter(guarded.url, **secured(files, "other.crt"))
    assert writer.write(image(41)) == "no_connection"
    assert (guarded.read("Switch"), guarded.read("BankA")) == (0, b"")
    writer.close()


def test_a_server_that_asks_for_security_gets_no_plain_connection(
    guarded: OpcUaController, plain: Callable[..., OpcUaWriter]
) -> None:
    assert plain(url=guarded.url).write(image(41)) == "no_connection"


def test_a_writer_with_certificates_never_falls_back_to_a_plain_connection(
    files: Files, machine: OpcUaController
) -> None:
    writer = OpcUaWriter(machine.url, **secured(files))
    assert writer.write(image(41)) == "no_connection"
    assert machine.read("BankA") == b""
    writer.close()


@pytest.mark.parametrize(
    ("program", "sent", "said"),
    [
        ({"station": 8}, image(41), "station"),
        ({"operator": True}, image(41), "waiting_for_operator"),
        ({}, image(41)[:-1] + "0", "checksum"),
        ({}, "0000" + image(41)[4:], "version"),
    ],
)
def test_what_the_machine_refuses_is_named(
    program: dict[str, Any], sent: str, said: str, machine: OpcUaController, plain: Callable[..., OpcUaWriter]
) -> None:
    machine.empty(**program)
    writer = plain()
    assert [writer.write(sent), writer.write(sent)] == [said] * 2
    assert machine.program.taken == []


def test_words_in_another_order_and_an_old_sequence_are_named(
    machine: OpcUaController, plain: Callable[..., OpcUaWriter]
) -> None:
    writer = plain()
    assert writer.write(image(42)) == "in_use"
    assert writer.write(image(41)) == "sequence"
    swapped = bytes.fromhex(image(43))
    assert writer.write(swapped[:216] + bytes.fromhex("03040102") + swapped[220:]) == "word_order"
    assert [one.hex() for one in machine.program.taken] == [image(42)]


def test_a_server_that_goes_and_comes_back_empty_gets_the_image_under_another_index(
    machine: OpcUaController,
    plain: Callable[..., OpcUaWriter],
) -> None:
    writer = plain()
    assert writer.write(image(41)) == "in_use"
    machine.stop()
    assert [writer.write(image(41)), writer.write(image(41))] == ["no_connection"] * 2
    assert not writer.beat()
    machine.program.last, machine.before = None, 3
    machine.start()
    assert writer.write(image(41)) == "in_use"
    assert machine.nodes["Switch"].nodeid.NamespaceIndex == 5
    assert machine.read("BankA").hex() == image(41)


@pytest.mark.parametrize("answer", [b"", b"HTTP/1.1 400 Bad Request\r\n\r\n"])
def test_a_port_that_speaks_something_else_is_no_connection(answer: bytes) -> None:
    with socket.create_server(("127.0.0.1", 0)) as listening:

        def serve() -> None:
            line, _ = listening.accept()
            with line:
                line.recv(1000)
                line.sendall(answer)

        thread = threading.Thread(target=serve, daemon=True)
        thread.start()
        url = f"opc.tcp://127.0.0.1:{listening.getsockname()[1]}"
        writer = OpcUaWriter(url, namespace=NAMESPACE, security="none", timeout=0.2)
        assert writer.write(image(41)) == "no_connection"
        thread.join(10)


@pytest.mark.parametrize(
    ("node", "value", "said"),
    [("Switch", 0x0163, "second_host"), ("BankA", bytes(240), "read_back_differs")],
)
def test_a_second_host_in_the_middle_is_seen(
    node: str, value: Any, said: str, machine: OpcUaController, plain: Callable[..., OpcUaWriter]
) -> None:
    writer = plain()
    put = writer._put_bank

    def disturbed(bank: str, sent: bytes) -> None:
        put(bank, sent)
        machine.set(node, value)

    writer._put_bank = disturbed  # type: ignore[method-assign]
    assert writer.write(image(41)) == said
    assert machine.program.taken == []


def test_a_second_host_that_beats_is_seen(machine: OpcUaController, plain: Callable[..., OpcUaWriter]) -> None:
    writer = plain()
    assert writer.beat()
    assert machine.read("HostHeartbeat") == 1
    machine.set("HostHeartbeat", 500)
    assert writer.write(image(41)) == "second_host"


@pytest.mark.parametrize(
    ("node", "kind"),
    [("State", ua.VariantType.Int32), ("Switch", ua.VariantType.Int64), ("BankA", ua.VariantType.String)],
)
def test_nodes_of_another_type_are_left_alone(
    node: str, kind: ua.VariantType, machine: OpcUaController, plain: Callable[..., OpcUaWriter]
) -> None:
    nodes = machine.add(f"urn:plant.example:{node}", **{node: kind})
    assert plain(namespace=f"urn:plant.example:{node}").write(image(41)) == "not_taken_over"
    assert machine.do(nodes["Switch"].read_value()) == 0


def test_a_namespace_that_the_server_does_not_have(plain: Callable[..., OpcUaWriter]) -> None:
    assert plain(namespace="urn:plant.example:limits:2").write(image(41)) == "not_taken_over"


def test_another_layout_and_a_machine_without_a_program(
    machine: OpcUaController, plain: Callable[..., OpcUaWriter]
) -> None:
    machine.set("Layout", 2)
    assert plain().write(image(41)) == "version"
    machine.set("Layout", 1)
    machine.scans = False
    assert plain(timeout=0.2).write(image(41)) == "not_taken_over"


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ({"certificate": None}, "belong together"),
        ({"security": "none"}, "belong together"),
        ({"security": "sign"}, "sign_and_encrypt or none"),
        ({"url": "http://192.0.2.17:4840"}, "opc.tcp://"),
        ({"url": "opc.tcp://192.0.2.17"}, "opc.tcp://"),
        ({"url": "opc.tcp://192.0.2.17:high"}, "opc.tcp://"),
        ({"private_key": "other.key"}, "not the key"),
        ({"server_certificate": "host.key"}, "cannot be read"),
        ({"private_key": "sealed.key"}, "cannot be read"),
    ],
)
def test_arguments_that_cannot_be_used(more: dict[str, Any], told: str, files: Files) -> None:
    sealed = generate_private_key(SECP256R1()).private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.BestAvailableEncryption(b"x")
    )
    files["host.crt"].with_name("sealed.key").write_bytes(sealed)
    here = {**files, "sealed.key": files["host.crt"].with_name("sealed.key")}
    given = {"url": "opc.tcp://192.0.2.17:4840", **secured(files), **more}
    with pytest.raises(ValueError, match=told):
        OpcUaWriter(**{name: here.get(value, value) for name, value in given.items()})


def test_nobody_gets_a_plain_connection_unasked() -> None:
    with pytest.raises(ValueError, match="security is none"):
        OpcUaWriter("opc.tcp://192.0.2.17:4840", namespace=NAMESPACE)


def test_the_configuration_names_one_controller_and_its_files(tmp_path: Path, files: Files) -> None:
    file = tmp_path / "floor.toml"
    for name in ("host.crt", "host.key", "machine.crt"):
        (tmp_path / name).write_bytes(files[name].read_bytes())
    table = (
        f'[opcua]\nurl = "opc.tcp://192.0.2.17:4840"\nnamespace = "{NAMESPACE}"\ncertificate = "host.crt"\n'
        'private_key = "host.key"\nserver_certificate = "machine.crt"\n'
    )
    file.write_text(LIMITS + table)
    assert isinstance(Settings.read(file).writer(), OpcUaWriter)
    for text in (LIMITS, LIMITS + table + '[modbus]\nhost = "192.0.2.17"\n'):
        file.write_text(text)
        with pytest.raises(ValueError, match="exactly one"):
            Settings.read(file)
    file.write_text(LIMITS + table + "port = 4840\n")
    with pytest.raises(ValueError, match="unknown port"):
        Settings.read(file)


def test_the_command_brings_signed_limits_to_the_machine(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], files: Files, guarded: OpcUaController
) -> None:
    secret = bytes(range(32))
    public = Ed25519PrivateKey.from_private_bytes(secret).public_key().public_bytes_raw().hex()
    payload = {"station": 7, "sequence": 41, "issued_at": 1_764_460_800, "valid_until": 0, "run_on": True}
    payload |= {"order": "4711-C", "lot": "L2026-0815", "designation": "M10-6g", "image": image(41)}
    (tmp_path / "limits.json").write_bytes(sign_limits(payload, secret))
    file = tmp_path / "floor.toml"
    file.write_text(
        LIMITS.replace("[]", f'["{public}"]')
        + f'[opcua]\nurl = "{guarded.url}"\nnamespace = "{NAMESPACE}"\ncertificate = "{files["host.crt"]}"\n'
        + f'private_key = "{files["host.key"]}"\nserver_certificate = "{files["machine.crt"]}"\n'
    )
    assert main(["floor", str(file), "--once"]) == 0, capsys.readouterr()
    assert "in_use: sequence 41, order 4711-C" in capsys.readouterr().out
    assert [one.hex() for one in guarded.program.taken] == [image(41)]


def test_the_library_that_is_missing_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    original = builtins.__import__

    def without(name: str, *rest: Any, **more: Any) -> Any:
        if name.startswith("asyncua"):
            raise ImportError(name)
        return original(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", without)
    writer = OpcUaWriter("opc.tcp://127.0.0.1:1", namespace=NAMESPACE, security="none")
    with pytest.raises(RuntimeError, match=r"boltwright\[opcua\]"):
        writer.write(image(41))
