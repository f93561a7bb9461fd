"""Writes tests/structure/released_tables.toml: the hash of every folder of facts. Run it from the project root."""

from __future__ import annotations

import tomllib
from pathlib import Path

from boltwright_server.standards import REGISTRY, fingerprint, registry

PINS = Path(__file__).with_name("released_tables.toml")
_HEAD = "# SHA-256 over each folder of facts; written by `python tests/structure/pin_tables.py`.\n"


def hashes() -> dict[str, str]:
    """Return the hash of every folder that is served."""
    folder = Path(registry.__file__).parent
    return {name: fingerprint.folder_hash(folder / name) for name in sorted(REGISTRY)}


def pinned() -> dict[str, str]:
    """Return the hashes that are pinned."""
    return tomllib.loads(PINS.read_text(encoding="utf-8")) if PINS.is_file() else {}


def main() -> None:
    """Pin what is served now."""
    lines = [f'{name} = "{value}"\n' for name, value in hashes().items()]
    PINS.write_text(_HEAD + "".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
