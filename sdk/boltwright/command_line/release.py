"""`boltwright release` signs the limits of a station, `boltwright release-key` makes the key for it."""

from __future__ import annotations

import argparse
import json
from getpass import getpass
from pathlib import Path
from typing import Any

from ..floor.signatures import public_key_id, sign_limits
from ..transport import Connection

_PHRASE = """The pass phrase of the key is asked for; it is never an argument, which other users of the machine could
read."""
_LEAST_PHRASE = 8


def add_to(commands: Any, shared: argparse.ArgumentParser) -> None:
    """Add both commands."""
    parser = commands.add_parser("release", epilog=_PHRASE)
    parser.add_argument(
        "payload", help="JSON file: station, sequence, issued_at, valid_until, run_on, order, lot, designation, image"
    )
    parser.add_argument("--key", required=True, metavar="KEYFILE", help="Ed25519 key, PKCS8 PEM with a pass phrase")
    parser.add_argument("--out", required=True, metavar="FILE", help="the signed file")
    parser.set_defaults(run=_release, url="http://127.0.0.1", json=False)
    maker = commands.add_parser("release-key", epilog=_PHRASE)
    maker.add_argument("key", metavar="KEYFILE", help="is written; an existing file is not touched")
    maker.set_defaults(run=_make_key, url="http://127.0.0.1", json=False)


def _release(connection: Connection, options: argparse.Namespace) -> tuple[Any, str, int]:
    payload = json.loads(Path(options.payload).read_text(encoding="utf-8"))
    if not isinstance(payload, dict):
        raise ValueError(f"{options.payload}: a payload is a JSON object")
    private = _private_key(Path(options.key))
    signed = sign_limits(payload, private.private_bytes_raw())
    Path(options.out).write_bytes(signed)
    id = public_key_id(private.public_key().public_bytes_raw())
    told = f"station {payload['station']}, sequence {payload['sequence']}, order {payload['order']}"
    return None, f"{options.out}: {told}, signed with key {id}", 0


def _private_key(path: Path) -> Any:
    """Return the key of a file.

    Raises:
        ValueError: no Ed25519 key, or another pass phrase.
    """
    serialization, ed25519 = _library()
    content = path.read_bytes()
    try:
        found = serialization.load_pem_private_key(content, getpass(f"Pass phrase of {path}: ").encode())
    except TypeError:
        raise ValueError(f"{path} has no pass phrase: anybody who reads the file could release limits") from None
    except ValueError:
        raise ValueError(f"{path}: no PKCS8 key, or not this pass phrase") from None
    if not isinstance(found, ed25519.Ed25519PrivateKey):
        raise ValueError(f"{path} is no Ed25519 key")
    return found


def _make_key(connection: Connection, options: argparse.Namespace) -> tuple[Any, str, int]:
    serialization, ed25519 = _library()
    phrase = getpass("Pass phrase for the new key: ")
    if len(phrase) < _LEAST_PHRASE:
        raise ValueError(f"a pass phrase has {_LEAST_PHRASE} characters or more")
    if getpass("Once more: ") != phrase:
        raise ValueError("the two pass phrases differ")
    private = ed25519.Ed25519PrivateKey.generate()
    pem = private.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.BestAvailableEncryption(phrase.encode()),
    )
    with Path(options.key).open("xb") as out:
        out.write(pem)
    Path(options.key).chmod(0o600)
    public = private.public_key().public_bytes_raw()
    return None, f'{options.key}: for the floor\n"{public_key_id(public)}" = "{public.hex()}"', 0


def _library() -> tuple[Any, Any]:
    try:
        from cryptography.hazmat.primitives import serialization
        from cryptography.hazmat.primitives.asymmetric import ed25519
    except ImportError:
        raise ValueError("releasing limits needs cryptography: pip install 'boltwright[floor]'") from None
    return serialization, ed25519
