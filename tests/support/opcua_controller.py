"""A machine controller on the loopback: a real OPC UA server, and a program that takes register images over.

The program decides as the Modbus one does, by the published layout and with no code of the project.
"""

from __future__ import annotations

import asyncio
import socket
import struct
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from asyncua import Server, ua
from asyncua.crypto import cert_gen
from controller import Machine
from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509 import DNSName, UniformResourceIdentifier

NAMESPACE = "urn:plant.example:limits:1"
TYPES = {
    **dict.fromkeys(
        ("Layout", "Switch", "HostHeartbeat", "MachineHeartbeat", "SwitchTaken", "State"), ua.VariantType.UInt16
    ),
    "Checksum": ua.VariantType.UInt32,
    **dict.fromkeys(("BankA", "BankB"), ua.VariantType.ByteString),
}
_WRITABLE = ("Switch", "HostHeartbeat", "BankA", "BankB")


def pair(folder: Path, name: str) -> tuple[Path, Path]:
    """Make a certificate of its own signature (DER) and its key (PEM)."""
    uri = f"urn:plant.example:{name}"
    key = cert_gen.generate_private_key()
    names: list[Any] = [UniformResourceIdentifier(uri), DNSName(socket.gethostname())]
    made = cert_gen.generate_self_signed_app_certificate(key, uri, {}, names, extended=[], days=2)
    certificate, private = folder / f"{name}.der", folder / f"{name}.pem"
    certificate.write_bytes(made.public_bytes(Encoding.DER))
    private.write_bytes(cert_gen.dump_private_key_as_pem(key))
    return certificate, private


class OpcUaController:
    """A server on a port of its own. From the next start, `before` namespaces come first: another index."""

    def __init__(self, security: tuple[Path, Path] | None = None) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.url = f"opc.tcp://127.0.0.1:{self.port}/machine"
        self._security, self.before = security, 0
        self.nodes: dict[str, Any] = {}
        self.program = Machine(0)
        self._seen, self.scans = 0, True
        self._loop = asyncio.new_event_loop()
        self._thread = threading.Thread(target=self._loop.run_forever, daemon=True)
        self._thread.start()
        self.start()

    def do(self, work: Any) -> Any:
        return asyncio.run_coroutine_threadsafe(work, self._loop).result(20)

    def start(self) -> None:
        self.do(self._listen())

    async def _listen(self) -> None:
        self.server = Server()
        await self.server.init()
        self.server.set_endpoint(self.url)
        policy = [ua.SecurityPolicyType.NoSecurity]
        if self._security is not None:
            policy = [ua.SecurityPolicyType.Basic256Sha256_SignAndEncrypt]
            await self.server.load_certificate(self._security[0])
            await self.server.load_private_key(self._security[1])
        self.server.set_security_policy(policy)
        for number in range(self.before):
            await self.server.register_namespace(f"urn:plant.example:other:{number}")
        index = await self.server.register_namespace(NAMESPACE)
        self.nodes = await self._add(index, TYPES)
        await self.server.start()
        self._seen = 0
        self._scan = asyncio.ensure_future(self._scans())

    async def _add(self, index: int, types: dict[str, ua.VariantType]) -> dict[str, Any]:
        nodes = {}
        for name, kind in types.items():
            at = ua.NodeId(f"Limits.{name}", index)
            nodes[name] = await self.server.nodes.objects.add_variable(at, f"{index}:{name}", _empty(name), kind)
            if name in _WRITABLE:
                await nodes[name].set_writable()
        return nodes

    def add(self, namespace: str, **types: ua.VariantType) -> dict[str, Any]:
        """Add the same nodes in another namespace, some of another type."""
        nodes: dict[str, Any] = self.do(self._add(self.do(self.server.register_namespace(namespace)), TYPES | types))
        return nodes

    def empty(self, **program: Any) -> None:
        """Set the nodes and the program to their start, as a power cut does."""
        self.program, self.scans = Machine(0, **program), True
        for name in TYPES:
            self.set(name, _empty(name))

    async def _scans(self) -> None:
        while True:
            await self.step()
            await asyncio.sleep(0.005)

    async def step(self) -> None:
        switch = await self.nodes["Switch"].read_value()
        if not switch:
            self._seen = 0
        if switch == self._seen or not self.scans:
            return
        image = await self.nodes["BankA" if switch >> 8 == 1 else "BankB"].read_value()
        if await self.nodes["Switch"].read_value() != switch:
            return
        self._seen = switch
        state = self.program.judged(image, switch)
        if state == 1:
            self.program.taken.append(image)
            self.program.last = struct.unpack_from(">I", image, 8)[0]
            await self.put("Checksum", struct.unpack(">I", image[-4:])[0])
            await self.put("SwitchTaken", switch)
        await self.put("State", state)

    async def put(self, name: str, value: Any) -> None:
        await self.nodes[name].write_value(ua.Variant(value, TYPES[name]))

    def read(self, name: str) -> Any:
        return self.do(self.nodes[name].read_value())

    def set(self, name: str, value: Any) -> None:
        self.do(self.put(name, value))

    def stop(self) -> None:
        async def end() -> None:
            self._scan.cancel()
            await self.server.stop()

        self.do(end())

    def close(self) -> None:
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join(10)
        self._loop.close()


def _empty(name: str) -> int | bytes:
    return b"" if name.startswith("Bank") else 0


@contextmanager
def opcua(security: tuple[Path, Path] | None = None) -> Iterator[OpcUaController]:
    running = OpcUaController(security)
    try:
        yield running
    finally:
        running.stop()
        running.close()
