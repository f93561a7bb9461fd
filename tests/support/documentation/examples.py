"""Examples of one Markdown file."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from . import curl
from .answers import difference, parse, pretty, projected

ROOT = Path(__file__).resolve().parents[3]
_BLOCKS = re.compile(
    r"^```bash\n(?P<command>curl .*?)^```\n[^`]*^```json\n(?P<answer>.*?)^```$", re.MULTILINE | re.DOTALL
)

#: Sends a request and returns the body of the answer.
Ask = Callable[[curl.Asked], bytes]


@dataclass(frozen=True, slots=True)
class Example:
    """A command and the answer shown below it."""

    place: str
    command: str
    shown: str

    def mismatch(self, ask: Ask) -> str | None:
        """Return where the answer is not what is shown, or None."""
        return difference(parse(self.shown), self._answer(ask))

    def refreshed(self, ask: Ask) -> str:
        """Return the answer of today in the shape that is shown; one that has not changed stays as it is folded."""
        if self.mismatch(ask) is None:
            return self.shown
        return pretty(projected(parse(self.shown), self._answer(ask))) + "\n"

    def _answer(self, ask: Ask) -> Any:
        return parse(ask(curl.parse(self.command)).decode())


def pages() -> list[Path]:
    """Return every page with examples."""
    written = [path for path in sorted((ROOT / "docs").rglob("*.md")) if path.relative_to(ROOT).parts[1] not in _BUILT]
    return [ROOT / "README.md", *written]


_BUILT = ("_build", "reference")


def examples(page: Path) -> Iterator[Example]:
    """Yield the examples of a page."""
    text = page.read_text(encoding="utf-8")
    place = page.relative_to(ROOT) if page.is_relative_to(ROOT) else Path(page.name)
    for found in _BLOCKS.finditer(text):
        line = text.count("\n", 0, found.start()) + 1
        yield Example(f"{place}:{line}", found["command"], found["answer"])


def refresh(page: Path, ask: Ask) -> bool:
    """Write the answers of today into a page; returns whether anything changed."""
    before = after = page.read_text(encoding="utf-8")
    for example in examples(page):
        block = f"```json\n{example.shown}```"
        start = after.index(block, after.index(example.command))
        after = after[:start] + f"```json\n{example.refreshed(ask)}```" + after[start + len(block) :]
    if after != before:
        page.write_text(after, encoding="utf-8")
    return after != before
