"""Register images written to a real Modbus server on the loopback: whole or not at all, each end named."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from typing import Any

import pytest
from controller import Machine, ModbusServer, scanning, server
from interrupted_writes import image, interrupted_writes

from boltwright import ModbusWriter
from boltwright.floor import modbus_writer


@pytest.fixture
def modbus() -> Iterator[ModbusServer]:
    with server() as running:
        yield running


@pytest.fixture
def writer(modbus: ModbusServer) -> Iterator[ModbusWriter]:
    one = ModbusWriter("127.0.0.1", modbus.port, timeout=0.5)
    yield one
    one.close()


def test_an_image_comes_into_use_and_the_next_one_in_the_other_bank(modbus: ModbusServer, writer: ModbusWriter) -> None:
    with scanning(Machine(modbus.port)) as machine:
        assert writer.write(image(41)) == "in_use"
        assert machine.read(1, 1) == [0x0129]
        assert writer.write(image(42)) == "in_use"
        assert machine.read(1, 1) == [0x022A]
        assert [one.hex() for one in machine.taken] == [image(41), image(42)]


def test_the_image_in_use_is_not_written_again(modbus: ModbusServer, writer: ModbusWriter) -> None:
    with scanning(Machine(modbus.port)) as machine:
        assert [writer.write(image(41)) for _ in range(3)] == ["in_use"] * 3
        assert len(machine.taken) == 1


@pytest.mark.parametrize(
    ("machine", "sent", "said"),
    [
        ({"station": 8}, image(41), "station"),
        ({"operator": True}, image(41), "waiting_for_operator"),
        ({}, image(41)[:-1] + "0", "checksum"),
        ({}, "0000" + image(41)[4:], "version"),
    ],
)
def test_what_the_machine_refuses_is_named(
    machine: dict[str, Any], sent: str, said: str, modbus: ModbusServer, writer: ModbusWriter
) -> None:
    with scanning(Machine(modbus.port, **machine)) as held:
        assert writer.write(sent) == said
        assert held.taken == []


def test_an_old_sequence_is_refused_and_the_newer_image_stays(modbus: ModbusServer, writer: ModbusWriter) -> None:
    with scanning(Machine(modbus.port)) as machine:
        assert writer.write(image(42)) == "in_use"
        assert writer.write(image(41)) == "sequence"
        assert [one.hex() for one in machine.taken] == [image(42)]


def test_words_in_another_order_are_refused(
    modbus: ModbusServer, writer: ModbusWriter, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A controller that swaps the registers of 32 bits sees 0x03040102."""
    machine = Machine(modbus.port)
    original = machine.judged

    def swapped(found: bytes, switch: int) -> int:
        pairs = [found[at : at + 4] for at in range(0, 240, 4)]
        return original(
            b"".join(one[2:] + one[:2] if 16 < 2 * at < 240 else one for at, one in enumerate(pairs)), switch
        )

    monkeypatch.setattr(machine, "judged", swapped)
    with scanning(machine):
        assert writer.write(image(41)) == "word_order"


def test_no_controller_and_no_program(modbus: ModbusServer) -> None:
    silent = ModbusWriter("127.0.0.1", modbus.port, timeout=0.2)
    assert silent.write(image(41)) == "not_taken_over"
    modbus.stop()
    assert silent.write(image(42)) == "no_connection"
    silent.close()


def test_a_controller_of_another_layout_is_left_alone(modbus: ModbusServer, writer: ModbusWriter) -> None:
    machine = Machine(modbus.port)
    machine.write(0, 2)
    assert writer.write(image(41)) == "version"
    assert machine.read(1, 120) + machine.read(121, 120) == [0] * 240
    machine.client.close()


def test_a_controller_that_comes_back_empty_gets_the_image_in_force(modbus: ModbusServer, writer: ModbusWriter) -> None:
    with scanning(Machine(modbus.port)):
        assert writer.write(image(41)) == "in_use"
    modbus.restart()
    with scanning(Machine(modbus.port)) as machine:
        said = writer.write(image(41))
        assert said in ("in_use", "no_connection")
        if said == "no_connection":
            assert writer.write(image(41)) == "in_use"
        assert [one.hex() for one in machine.taken] == [image(41)]


def test_a_second_host_that_switches_is_seen(
    modbus: ModbusServer, writer: ModbusWriter, request: pytest.FixtureRequest
) -> None:
    other = Machine(modbus.port)
    request.addfinalizer(other.client.close)
    put = writer._put

    def disturbed(register: int, words: list[int], single: bool = False) -> None:
        put(register, words, single)
        if not single:
            other.write(1, 0x0163)

    writer._put = disturbed  # type: ignore[method-assign]
    assert writer.write(image(41)) == "second_host"


def test_a_second_host_that_writes_the_same_bank_is_seen(
    modbus: ModbusServer, writer: ModbusWriter, request: pytest.FixtureRequest
) -> None:
    other = Machine(modbus.port)
    request.addfinalizer(other.client.close)
    put = writer._put

    def disturbed(register: int, words: list[int], single: bool = False) -> None:
        put(register, words, single)
        if not single:
            other.write(50, 4711)

    writer._put = disturbed  # type: ignore[method-assign]
    assert writer.write(image(41)) == "read_back_differs"


def test_a_second_host_that_beats_is_seen(modbus: ModbusServer, writer: ModbusWriter) -> None:
    assert writer.beat()
    other = Machine(modbus.port)
    other.write(2, 500)
    other.client.close()
    assert writer.write(image(41)) == "second_host"


def test_an_exception_answer_is_no_success(modbus: ModbusServer) -> None:
    """Registers that the controller does not have."""
    beyond = ModbusWriter("127.0.0.1", modbus.port, base=200, timeout=0.2)
    assert beyond.write(image(41)) == "not_taken_over"
    beyond.close()


@pytest.mark.parametrize("reads", [1, 40])
def test_no_interrupted_write_is_ever_torn(modbus: ModbusServer, reads: int) -> None:
    """`python -m tests.faults.stations writes` does this ten thousand times."""
    machine, ended = interrupted_writes(modbus, 150, reads)
    assert ended > 5
    assert len(machine.taken) >= ended


def test_nothing_is_heard_of_the_library_that_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    import builtins

    original = builtins.__import__

    def without(name: str, *rest: Any, **more: Any) -> Any:
        if name.startswith("pymodbus"):
            raise ImportError(name)
        return original(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", without)
    with pytest.raises(RuntimeError, match=r"boltwright\[modbus\]"):
        ModbusWriter("127.0.0.1", 1).write(image(41))
    assert modbus_writer.CONTROL == 16
    assert threading.active_count() >= 1
