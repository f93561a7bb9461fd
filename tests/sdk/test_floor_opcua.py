"""Register images written to a real OPC UA server on the loopback: whole or not at all, each end named."""

from __future__ import annotations

import builtins
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from asyncua import ua
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ec import SECP256R1, generate_private_key
from interrupted_writes import image
from opcua_controller import NAMESPACE, OpcUaController, opcua, pair

from boltwright import OpcUaWriter
from boltwright.floor.service import Settings

LIMITS = '[limits]\ndirectory = "held"\nstation = 7\ninbox = "limits.json"\nkeys = []\n'
Files = dict[str, Path]


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Files:
    folder = tmp_path_factory.mktemp("certificates")
    made = {name: pair(folder, name) for name in ("host", "machine", "other")}
    return {f"{name}{at}": one for name, both in made.items() for at, one in zip((".crt", ".key"), both, strict=True)}


@pytest.fixture
def plain() -> Iterator[Callable[..., OpcUaWriter]]:
    """Make writers without security; close them at the end."""
    made: list[OpcUaWriter] = []

    def make(controller: OpcUaController, **more: Any) -> OpcUaWriter:
        made.append(OpcUaWriter(controller.url, **{"namespace": NAMESPACE, "security": "none", "timeout": 0.5, **more}))
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


def test_images_come_into_use_signed_and_encrypted_each_in_the_other_bank(files: Files) -> None:
    with opcua(security=(files["machine.crt"], files["machine.key"])) as machine:
        writer = OpcUaWriter(machine.url, **secured(files, timeout=5.0))
        assert writer.write(image(41)) == "in_use"
        assert (machine.read("Switch"), machine.read("BankA").hex()) == (0x0129, image(41))
        assert writer.write(image(42)) == "in_use"
        assert (machine.read("Switch"), machine.read("BankB").hex()) == (0x022A, image(42))
        assert machine.read("BankA").hex() == image(41)
        assert writer.write(image(42)) == "in_use"
        assert [one.hex() for one in machine.program.taken] == [image(41), image(42)]
        writer.close()


def test_a_server_with_another_certificate_is_not_talked_to(files: Files) -> None:
    with opcua(security=(files["machine.crt"], files["machine.key"])) as machine:
        writer = OpcUaWriter(machine.url, **secured(files, "other.crt"))
        assert writer.write(image(41)) == "no_connection"
        assert (machine.read("Switch"), machine.read("BankA")) == (0, b"")
        writer.close()


def test_a_server_that_asks_for_security_gets_no_plain_connection(
    files: Files, plain: Callable[..., OpcUaWriter]
) -> None:
    with opcua(security=(files["machine.crt"], files["machine.key"])) as machine:
        assert plain(machine).write(image(41)) == "no_connection"


def test_a_writer_with_certificates_never_falls_back_to_a_plain_connection(files: Files) -> None:
    with opcua() as machine:
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
    program: dict[str, Any], sent: str, said: str, plain: Callable[..., OpcUaWriter]
) -> None:
    with opcua(**program) as machine:
        writer = plain(machine)
        assert [writer.write(sent), writer.write(sent)] == [said] * 2
        assert machine.program.taken == []


def test_words_in_another_order_and_an_old_sequence_are_named(plain: Callable[..., OpcUaWriter]) -> None:
    with opcua() as machine:
        writer = plain(machine)
        assert writer.write(image(42)) == "in_use"
        assert writer.write(image(41)) == "sequence"
        swapped = bytes.fromhex(image(43))
        assert writer.write(swapped[:216] + bytes.fromhex("03040102") + swapped[220:]) == "word_order"
        assert [one.hex() for one in machine.program.taken] == [image(42)]


def test_a_server_that_goes_and_comes_back_empty_gets_the_image_under_another_index(
    plain: Callable[..., OpcUaWriter],
) -> None:
    with opcua() as machine:
        writer = plain(machine)
        assert writer.write(image(41)) == "in_use"
        machine.stop()
        assert [writer.write(image(41)), writer.write(image(41))] == ["no_connection"] * 2
        assert not writer.beat()
        machine.program.last, machine.before = None, 3
        machine.start()
        assert writer.write(image(41)) == "in_use"
        assert machine.nodes["Switch"].nodeid.NamespaceIndex == 5
        assert machine.read("BankA").hex() == image(41)


@pytest.mark.parametrize(
    ("node", "value", "said"),
    [("Switch", 0x0163, "second_host"), ("BankA", bytes(240), "read_back_differs")],
)
def test_a_second_host_in_the_middle_is_seen(
    node: str, value: Any, said: str, plain: Callable[..., OpcUaWriter]
) -> None:
    with opcua() as machine:
        writer = plain(machine)
        put = writer._put_bank

        def disturbed(bank: str, sent: bytes) -> None:
            put(bank, sent)
            machine.set(node, value)

        writer._put_bank = disturbed  # type: ignore[method-assign]
        assert writer.write(image(41)) == said
        assert machine.program.taken == []


def test_a_second_host_that_beats_is_seen(plain: Callable[..., OpcUaWriter]) -> None:
    with opcua() as machine:
        writer = plain(machine)
        assert writer.beat()
        assert machine.read("HostHeartbeat") == 1
        machine.set("HostHeartbeat", 500)
        assert writer.write(image(41)) == "second_host"


@pytest.mark.parametrize(
    ("controller", "writer"),
    [
        ({"types": {"State": ua.VariantType.Int32}}, {}),
        ({"types": {"Switch": ua.VariantType.Int64}}, {}),
        ({"types": {"BankA": ua.VariantType.String}}, {}),
        ({}, {"namespace": "urn:plant.example:limits:2"}),
    ],
)
def test_nodes_of_another_type_or_namespace_are_left_alone(
    controller: dict[str, Any], writer: dict[str, Any], plain: Callable[..., OpcUaWriter]
) -> None:
    with opcua(**controller) as machine:
        assert plain(machine, **writer).write(image(41)) == "not_taken_over"
        assert machine.read("Switch") == 0


def test_another_layout_and_a_machine_without_a_program(plain: Callable[..., OpcUaWriter]) -> None:
    with opcua() as machine:
        machine.set("Layout", 2)
        assert plain(machine).write(image(41)) == "version"
        machine.set("Layout", 1)
        machine.pause()
        assert plain(machine, timeout=0.2).write(image(41)) == "not_taken_over"


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ({"certificate": None}, "belong together"),
        ({"security": "none"}, "belong together"),
        ({"security": "sign"}, "sign_and_encrypt or none"),
        ({"url": "http://192.0.2.17"}, "opc.tcp://"),
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
