"""A plant's own standards: folders of the same form as the built-in ones, from a directory of the plant."""

from __future__ import annotations

import re
from pathlib import Path

from .loader import BadFacts, load_standard
from .registry import REGISTRY, add_own, all_standards, own_folders
from .table import Standard

_FOLDER = re.compile(r"[a-z0-9][a-z0-9_]{0,59}")
#: What a designation starts with: letters first, and nothing that reads as a thread (M10).
_ID = re.compile(r"(?!M ?[0-9])[A-Z][A-Za-z0-9.-]{0,19}(?: [A-Za-z0-9.-]{1,19}){0,3}")


def read_own(directory: Path) -> dict[str, Standard]:
    """Read every folder of a directory that holds a `standard.toml`, by folder name. Nothing is served yet.

    Raises:
        BadFacts: no such directory, no folder in it, a folder that the loader refuses, or one that would hide a
            standard that is held.
    """
    if not directory.is_dir():
        raise BadFacts(f"{directory}: no such directory of standards")
    folders = sorted(path.parent for path in directory.glob("*/standard.toml"))
    if not folders:
        raise BadFacts(f"{directory}: no folder in it holds a standard.toml")
    if misplaced := [path for path in sorted(directory.iterdir()) if _may_hold_facts(path) and path not in folders]:
        raise BadFacts(f"{misplaced[0].name}: the folder holds no standard.toml")
    held = {(one.id, one.edition): one.folder for one in all_standards()}
    found = {}
    for folder in folders:
        standard = _read(folder)
        if (standard.id, standard.edition) in held:
            other = held[standard.id, standard.edition]
            raise BadFacts(f"{folder.name}/standard.toml: {standard.cited} is held already, in {other}")
        held[standard.id, standard.edition] = folder.name
        found[folder.name] = standard
    return found


def _may_hold_facts(path: Path) -> bool:
    """Return whether a path is a folder that somebody made for a standard; `.git` is not."""
    return path.is_dir() and not path.name.startswith(".")


def _read(folder: Path) -> Standard:
    if not _FOLDER.fullmatch(folder.name):
        raise BadFacts(f"{folder.name}: a folder is named in small letters, digits and underscores")
    if folder.name in REGISTRY or folder.name in own_folders():
        raise BadFacts(f"{folder.name}: a folder of this name is held already")
    standard = load_standard(folder)
    if not _ID.fullmatch(standard.id):
        raise BadFacts(
            f"{folder.name}/standard.toml: id {standard.id!r} cannot start a designation; write it as PN 4711 or WN 1-3"
        )
    return standard


def serve_own(directory: Path, found: dict[str, Standard]) -> None:
    """Serve what was read and checked; call it before anything is looked up."""
    add_own({name: directory / name for name in found})
