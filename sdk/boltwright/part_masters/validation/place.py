"""Where an answer is written: beside its place until it is known to be whole."""

from __future__ import annotations

import os
from pathlib import Path


def draft_of(out: Path) -> Path:
    """Return the file that is moved to `out` when all of it is there."""
    return out.with_name(f"{out.name}.part")


def check_place(out: Path) -> None:
    """See that a file can be written, before anything is sent.

    Raises:
        ValueError: its folder does not exist or takes no file, or a folder has its name.
    """
    folder = out.absolute().parent
    if not folder.is_dir():
        raise ValueError(f"{out}: there is no folder {folder}; make it first, or name another file")
    if out.is_dir():
        raise ValueError(f"{out} is a folder: name a file in it")
    if not os.access(folder, os.W_OK):
        raise ValueError(f"{out}: nothing may be written into {folder}")
