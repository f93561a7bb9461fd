"""Files stay short, and speak of fasteners only."""

import re

import pytest
from tree import ROOT, tracked_files

LONGEST = 400
TEXT = {".py", ".md", ".toml", ".csv", ".txt", ".html", ".css", ".lark", ".json", ".svg", ".cfg", ".yml", ".yaml", ""}
#: Words that have no place in a product, written so that this file does not hold them itself.
BANNED = (
    "tran" + "script",
    "seed " + "document",
    "/(wo" + "rk|fa" + "rm|ro" + "ot)/",
    "bash" + "_jobs",
    "index" + "-url",
    "/sim" + "ple/",
    "coding " + "agent",
    "sub" + "agent",
    "this " + "session",
    "py" + r"pi\.org",
    "python" + "hosted",
)


def test_no_file_of_code_is_longer_than_400_lines() -> None:
    lengths = {
        path.relative_to(ROOT).as_posix(): len(path.read_text(encoding="utf-8").splitlines())
        for path in tracked_files()
        if path.suffix == ".py"
    }
    assert not {name: lines for name, lines in lengths.items() if lines > LONGEST}, "split it by chapter or entity"


@pytest.mark.parametrize("word", BANNED)
def test_a_word_does_not_occur(word: str) -> None:
    pattern = re.compile(word, re.IGNORECASE)
    found = [
        f"{path.relative_to(ROOT)}:{number}"
        for path in tracked_files()
        if path.suffix in TEXT
        for number, line in enumerate(path.read_text(encoding="utf-8", errors="replace").splitlines(), start=1)
        if pattern.search(line) or pattern.search(path.name)
    ]
    assert not found


def test_the_top_level_is_fixed() -> None:
    names = {path.relative_to(ROOT).parts[0] for path in tracked_files()}
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "server", "sdk", "tests", "catalog_demo", "docs"}
    assert {name for name in names if not name.startswith(".")} <= allowed
