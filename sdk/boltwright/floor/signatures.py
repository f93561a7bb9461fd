"""Limits files signed with Ed25519 (RFC 8032): who releases limits has the private key, the floor the public ones.

Needs the extra `floor` (cryptography), which is imported when the first key is used. What is signed is the text of the
payload as it stands in the file, behind a prefix of its own, so that no signature can be taken for another.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from hashlib import sha256
from typing import Any

PREFIX = b"plant limits file v1\0"
FORMAT = "plant limits file v1"
#: Member of a payload -> its type. Numbers are whole: a double would be written in as many ways as there are languages.
MEMBERS: Mapping[str, type] = {
    "station": int,
    "sequence": int,
    "issued_at": int,
    "valid_until": int,
    "run_on": bool,
    "order": str,
    "lot": str,
    "designation": str,
    "image": str,
}
_ID_DIGITS, _LARGEST = 16, 2**32 - 1


class NotSigned(Exception):
    """The file holds no limits that the key has signed."""


def sign_limits(payload: Mapping[str, Any], private_key: bytes) -> bytes:
    """Return a signed limits file.

    Args:
        payload: station, sequence, issued_at, valid_until, run_on, order, lot, designation, image.
        private_key: the raw 32 bytes of an Ed25519 key.

    Raises:
        ValueError: a member that is missing, unknown or of another type, or a key of another length.
    """
    check_payload(payload)
    keys = _ed25519()
    private = keys.Ed25519PrivateKey.from_private_bytes(private_key)
    text = json.dumps(dict(payload), sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    whole = {
        "format": FORMAT,
        "key": public_key_id(private.public_key().public_bytes_raw()),
        "payload": text,
        "signature": private.sign(PREFIX + text.encode("ascii")).hex(),
    }
    return json.dumps(whole, indent=1, ensure_ascii=True).encode("ascii") + b"\n"


def public_key_id(public_key: bytes) -> str:
    """Return the id of a public key: the first 16 hex digits of the SHA-256 over its raw 32 bytes."""
    return sha256(public_key).hexdigest()[:_ID_DIGITS]


def check_payload(payload: Mapping[str, Any]) -> None:
    """Refuse a payload that is not whole.

    Raises:
        ValueError: names the member.
    """
    for name in payload:
        if name not in MEMBERS:
            raise ValueError(f"unknown member {name!r}; known: {', '.join(MEMBERS)}")
    for name, kind in MEMBERS.items():
        if name not in payload:
            raise ValueError(f"{name} is missing")
        value = payload[name]
        if not isinstance(value, kind) or (kind is int and isinstance(value, bool)):
            raise ValueError(f"{name} is of type {kind.__name__}, not {type(value).__name__}")
        if isinstance(value, int) and not 0 <= value <= _LARGEST:
            raise ValueError(f"{name} is from 0 to {_LARGEST}, not {value}")


def key_of(file: bytes) -> str:
    """Return the id of the key that a file names.

    Raises:
        NotSigned: it is no limits file.
    """
    return str(_members(file)["key"])


def verified(file: bytes, public_key: bytes) -> dict[str, Any]:
    """Return the payload of a file that the key has signed.

    Raises:
        NotSigned: it is no limits file, it was altered, or another key has signed it.
    """
    members, keys = _members(file), _ed25519()
    from cryptography.exceptions import InvalidSignature

    text = members["payload"].encode("ascii", "replace")
    try:
        keys.Ed25519PublicKey.from_public_bytes(public_key).verify(bytes.fromhex(members["signature"]), PREFIX + text)
        payload = json.loads(text, object_pairs_hook=_once)
        check_payload(payload)
    except InvalidSignature:
        raise NotSigned("the signature does not fit: the file was altered, or another key has signed it") from None
    except ValueError as error:
        raise NotSigned(f"no limits file: {error}") from None
    found: dict[str, Any] = payload
    return found


def _members(file: bytes) -> dict[str, str]:
    try:
        members = json.loads(file.decode("ascii"), object_pairs_hook=_once)
    except (ValueError, RecursionError):
        raise NotSigned("no limits file: it is no JSON text") from None
    if not isinstance(members, dict) or set(members) != {"format", "key", "payload", "signature"}:
        raise NotSigned("no limits file: it holds format, key, payload and signature, and nothing else")
    if members["format"] != FORMAT or not all(isinstance(one, str) for one in members.values()):
        raise NotSigned(f"no limits file of the format {FORMAT!r}")
    return members


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        raise ValueError("a member stands twice")
    return found


def _ed25519() -> Any:
    """Return the library, imported late: most users of the SDK sign nothing."""
    try:
        from cryptography.hazmat.primitives.asymmetric import ed25519
    except ImportError:
        raise RuntimeError("signed limits need cryptography: pip install 'boltwright[floor]'") from None
    return ed25519
