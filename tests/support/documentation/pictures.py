"""Pictures of a Markdown file: a command in a block marked `sh`, and below it the drawing that it is answered with."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from . import curl
from .examples import ROOT, Ask

_BLOCKS = re.compile(r"^```sh\n(?P<command>curl [^`]*)^```\n+!\[[^\]]+\]\((?P<file>[^)]+\.svg)\)$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Picture:
    """A command, and the file of the drawing shown below it."""

    command: str
    file: Path

    @property
    def place(self) -> str:
        """The file, for people."""
        return str(self.file.relative_to(ROOT))

    def drawn(self, ask: Ask) -> bytes:
        """Return the drawing of today."""
        return ask(curl.parse(self.command))

    def refresh(self, ask: Ask) -> bool:
        """Write the drawing of today; returns whether anything changed."""
        before = self.file.read_bytes() if self.file.is_file() else b""
        after = self.drawn(ask)
        self.file.write_bytes(after)
        return after != before


def pictures(page: Path) -> Iterator[Picture]:
    """Yield the pictures of a page."""
    for found in _BLOCKS.finditer(page.read_text(encoding="utf-8")):
        yield Picture(found["command"], page.parent / found["file"])
