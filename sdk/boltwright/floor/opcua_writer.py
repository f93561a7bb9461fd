"""Writes a register image to a controller over OPC UA: whole, read back, switched, confirmed.

Needs the extra `opcua` (asyncua), imported with the first connection. The nodes are those of the register image, by
string NodeIds that are never renamed; the index of their namespace is looked up by its URI in each session.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from .image_writer import ImageWriter, NoConnection, Refused

#: Registers 0 to 5 of the control area in their order, then the checksum of 6 and 7.
_CONTROL = tuple(
    f"Limits.{name}" for name in ("Layout", "Switch", "HostHeartbeat", "MachineHeartbeat", "SwitchTaken", "State")
)
_CHECKSUM = "Limits.Checksum"
_BANKS = {"A": "Limits.BankA", "B": "Limits.BankB"}
_MISSING = "controllers over OPC UA need asyncua: pip install 'boltwright[opcua]'"


class OpcUaWriter(ImageWriter):
    """One controller. Not shared between threads.

    Args:
        url: of the server, opc.tcp://host:port and what follows.
        namespace: URI of the namespace that holds the nodes.
        certificate, private_key: files of this host, PEM or DER, the key without a pass phrase.
        server_certificate: file of the server's certificate; a server with another one is not talked to.
        timeout: seconds for each request, and for the machine to take an image over.
        security: sign_and_encrypt (Basic256Sha256), or none for a plain connection without certificates.

    Raises:
        ValueError: an argument that cannot be used. OSError: a file that cannot be read.
        RuntimeError: asyncua is missing.
    """

    def __init__(
        self,
        url: str,
        *,
        namespace: str,
        certificate: str | Path | None = None,
        private_key: str | Path | None = None,
        server_certificate: str | Path | None = None,
        timeout: float = 5.0,
        security: str = "sign_and_encrypt",
    ) -> None:
        super().__init__(url, timeout)
        _check_url(url)
        files = [Path(one) for one in (certificate, private_key, server_certificate) if one is not None]
        if security not in ("sign_and_encrypt", "none"):
            raise ValueError(f"security is sign_and_encrypt or none, not {security!r:.40}")
        if len(files) != (0 if security == "none" else 3):
            raise ValueError(
                "certificate, private_key and server_certificate belong together; without them security is none"
            )
        self._namespace = namespace
        self._pair = _Pair(*(one.read_bytes() for one in files)) if files else None
        self._client: Any = None
        self._loop: Any = None
        self._index = 0

    def close(self) -> None:
        """Close the connection; the next write opens one."""
        client, loop, self._client, self._loop = self._client, self._loop, None, None
        if client is not None:
            with suppress(Exception):
                client.disconnect()
        if loop is not None:
            loop.stop()

    # Requests

    def _control(self) -> list[int]:
        *words, crc = self._read([*dict.fromkeys(_CONTROL, "UInt16").items(), (_CHECKSUM, "UInt32")])
        return [*words, crc >> 16, crc & 0xFFFF]

    def _put_word(self, register: int, word: int) -> None:
        self._write(_CONTROL[register], word, "UInt16")

    def _bank(self, bank: str) -> bytes:
        found: bytes = self._read([(_BANKS[bank], "ByteString")])[0] or b""
        return found

    def _put_bank(self, bank: str, image: bytes) -> None:
        self._write(_BANKS[bank], image, "ByteString")

    def _read(self, named: list[tuple[str, str]]) -> list[Any]:
        """Return the values of nodes, read by one request; a value of another type is refused, not converted."""
        found = self._call(lambda client: client.read_attributes([self._node(name) for name, _ in named]))
        for (name, type), one in zip(named, found, strict=True):
            if not one.StatusCode.is_good():
                raise Refused(f"{name}: {one.StatusCode.name}")
            if one.Value is None or one.Value.VariantType.name != type or isinstance(one.Value.Value, list):
                raise Refused(f"{name} is no {type}")
        return [one.Value.Value for one in found]

    def _write(self, name: str, value: int | bytes, type: str) -> None:
        def request(client: Any) -> Any:
            from asyncua import ua

            # The type is given: a bare number would go as Int64. No timestamp: some servers refuse one.
            sent = ua.DataValue(ua.Variant(value, ua.VariantType[type]))
            return client.write_values([self._node(name)], [sent], raise_on_partial_error=False)

        (status,) = self._call(request)
        if not status.is_good():
            raise Refused(f"{name}: {status.name}")

    def _node(self, name: str) -> Any:
        return self._client.get_node(f"ns={self._index};s={name}")

    def _call(self, request: Callable[[Any], Any]) -> Any:
        """Send a request. A node's refusal is in the answer; what is raised means that there was no answer."""
        client = self._connected()
        try:
            return request(client)
        except Exception as error:  # whatever a library makes of a line that breaks in the middle
            raise NoConnection(f"{type(error).__name__}: {error}") from error

    def _connected(self) -> Any:
        if self._client is not None:
            return self._client
        try:
            from asyncua.sync import Client, ThreadLoop
        except ImportError:
            raise RuntimeError(_MISSING) from None
        _quiet()
        self._loop = ThreadLoop(4 * self._timeout)
        self._loop.daemon = True  # a writer that nobody closes keeps no program from ending
        self._loop.start()
        client = Client(self._name, timeout=self._timeout, tloop=self._loop)
        if self._pair is not None:
            self._pair.secure(client)
        try:
            client.connect()
            self._client = client
            namespaces: list[str] = client.get_namespace_array()
        except Exception as error:
            self.close()
            raise NoConnection(f"{type(error).__name__}: {error}") from error
        if self._namespace not in namespaces:
            self.close()
            raise Refused(f"no namespace {self._namespace}")
        self._index = namespaces.index(self._namespace)
        return client


def _check_url(url: str) -> None:
    try:
        parts = urlsplit(url)
        usable = parts.scheme == "opc.tcp" and parts.hostname and parts.port
    except ValueError:
        usable = None
    if not usable:
        raise ValueError(f"url is opc.tcp://host:port, not {url!r:.80}")


class _Pair:
    """The certificate and key of this host and the server's certificate, read and checked once."""

    def __init__(self, certificate: bytes, private_key: bytes, server_certificate: bytes) -> None:
        try:
            from cryptography import x509
            from cryptography.hazmat.primitives import serialization as files
            from cryptography.hazmat.primitives.asymmetric.rsa import RSAPublicKey
        except ImportError:
            raise RuntimeError(_MISSING) from None
        self._contents = [(one, "pem" if b"-----BEGIN" in one else "der") for one in (certificate, server_certificate)]
        self._key = (private_key, "pem" if b"-----BEGIN" in private_key else "der")
        try:
            own, server = (getattr(x509, f"load_{kind}_x509_certificate")(one) for one, kind in self._contents)
            key = getattr(files, f"load_{self._key[1]}_private_key")(private_key, password=None)
        except (ValueError, TypeError) as error:
            raise ValueError(f"certificate, private_key or server_certificate cannot be read: {error}") from None
        if not all(isinstance(one.public_key(), RSAPublicKey) for one in (own, server)):
            raise ValueError("Basic256Sha256 needs certificates with RSA keys")
        if key.public_key() != own.public_key():
            raise ValueError("private_key is not the key of certificate")
        self._uris: list[str] = []
        with suppress(x509.ExtensionNotFound):
            names = own.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
            self._uris = names.get_values_for_type(x509.UniformResourceIdentifier)

    def secure(self, client: Any) -> None:
        """Sign and encrypt with the server of the certificate. Servers compare the application URI with ours."""
        from asyncua import ua
        from asyncua.crypto.security_policies import SecurityPolicyBasic256Sha256
        from asyncua.crypto.uacrypto import CertProperties

        if self._uris:
            client.application_uri = self._uris[0]
        own, server = (CertProperties(*one) for one in self._contents)
        client.set_security(
            SecurityPolicyBasic256Sha256,
            own,
            CertProperties(*self._key),
            server_certificate=server,
            mode=ua.MessageSecurityMode.SignAndEncrypt,
        )


def _quiet() -> None:
    """Each failure would be told twice; the writer says by itself what happened."""
    logger = logging.getLogger("asyncua")
    if logger.level == logging.NOTSET:
        logger.setLevel(logging.CRITICAL)
