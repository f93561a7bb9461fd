"""One hash over every table and the version of the engines: same fingerprint and request, same bytes."""

from __future__ import annotations

import hashlib
from pathlib import Path

from .. import ENGINE_VERSION
from ..quantities.keeper import remembered
from .other_sources import OTHER_SOURCES
from .registry import REGISTRY, own_folders

_HERE = Path(__file__).parent


def folder_hash(folder: Path) -> str:
    """Return the SHA-256 over the names and bytes of the files of one folder of facts, in hexadecimal."""
    digest = hashlib.sha256()
    for path in [*sorted(folder.glob("*.csv")), folder / "standard.toml"]:
        content = path.read_bytes()
        digest.update(f"{path.name}\0{len(content)}\0".encode())
        digest.update(content)
    return digest.hexdigest()


@remembered()
def fingerprint() -> str:
    """Return the fingerprint of this service: 16 hexadecimal digits."""
    digest = hashlib.sha256(f"engine {ENGINE_VERSION}\n".encode())
    for name in sorted(REGISTRY):
        digest.update(f"{name} {folder_hash(_HERE / name)}\n".encode())
    digest.update(OTHER_SOURCES.read_bytes())
    for name, folder in sorted(own_folders().items()):
        digest.update(f"own {name} {folder_hash(folder)}\n".encode())
    return digest.hexdigest()[:16]
